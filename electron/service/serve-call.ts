import type { Outcome } from '../../core/contract/bridge.ts'
import { type CallContext, type CallName, callIdSchema, calls } from '../../core/contract/calls.ts'
import { problemOf, WhorlError } from '../../core/contract/problem.ts'
import type { AppHost } from './app-host.ts'
import { checked } from './checked.ts'

const progressEveryMilliseconds = 100

/**
 * Answers one call, whichever shell carries it. Takes everything as unknown, checks it against the table
 * of calls, and hands every failure back as data. Progress goes out on the bus under the call's id.
 */
export async function serveCall(
  host: AppHost,
  asked: { name: unknown; input: unknown; callId: unknown },
  signal: AbortSignal,
): Promise<Outcome<unknown>> {
  try {
    const name = nameOf(asked.name)
    const callId = checked(callIdSchema, asked.callId, name, 'the call id')
    const input = checked<unknown>(calls[name].input, asked.input, name, 'the input')
    const context = { signal, progress: progressTo(host, callId), callId }
    const handler = host.service[name] as (input: unknown, context: CallContext) => Promise<unknown>
    return { ok: true, answer: await handler(input, context) }
  } catch (error) {
    return { ok: false, problem: problemOf(error) }
  }
}

function nameOf(name: unknown): CallName {
  if (typeof name === 'string' && Object.hasOwn(calls, name)) return name as CallName
  throw new WhorlError('bad-payload', {
    call: String(name).slice(0, 64),
    where: 'its name',
    what: 'there is no such call',
  })
}

/** Says the first and the last of each thing done, and some between: a page cannot show more than ten a second. */
function progressTo(host: AppHost, callId: string): CallContext['progress'] {
  let last = Number.NEGATIVE_INFINITY
  let what: string | null = null
  return progress => {
    const now = performance.now()
    const isBetween = progress.what === what && progress.done !== progress.total
    if (isBetween && now - last < progressEveryMilliseconds) return
    last = now
    what = progress.what
    host.bus.say({ kind: 'progress', callId, ...progress })
  }
}
