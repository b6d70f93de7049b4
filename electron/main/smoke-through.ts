import type { Outcome } from '../../core/contract/bridge.ts'
import type { CallAnswer, CallInput, CallName } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { readOneSample } from '../service/smoke.ts'
import type { AppWindow } from './electron-parts.ts'

/** Reads one sample clip by the calls of the window's own page, through preload and messages. */
export function smokeThrough({ webContents }: AppWindow): Promise<string> {
  return readOneSample(async <N extends CallName>(name: N, input: CallInput<N>) => {
    const words = [name, input, 'smoke'].map(word => JSON.stringify(word))
    const outcome: Outcome<CallAnswer<N>> = await webContents.executeJavaScript(`whorl.call(${words})`)
    if (outcome.ok) return outcome.answer
    throw new WhorlError('smoke-failed', { what: `${name} says ${outcome.problem.message}` })
  })
}
