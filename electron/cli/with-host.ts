import { existsSync } from 'node:fs'
import type { CallAnswer, CallChecked, CallName, Progress } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { AppHost } from '../service/app-host.ts'
import { openHost } from '../service/open-host.ts'
import type { World } from './world.ts'

/** The same calls that the page makes, made by the command line. */
export type Ask = <N extends CallName>(
  name: N,
  input: CallChecked<N>,
  progress?: (said: Progress) => void,
) => Promise<CallAnswer<N>>

/** Opens a workspace for one command and closes it again, whatever happens. */
export async function withHost<T>(
  workspaceFile: string,
  world: World,
  use: (ask: Ask, host: AppHost) => Promise<T>,
): Promise<T> {
  const host = openHost({ workspaceFile, shell: 'desktop', folders: null, pick: null })
  try {
    return await use(
      (name, input, progress = () => {}) => host.service[name](input, { signal: world.signal, progress }),
      host,
    )
  } finally {
    await host.close()
  }
}

/** For commands that only read: a workspace that is not there is not made. */
export function existing(workspaceFile: string): string {
  if (!existsSync(workspaceFile)) throw new WhorlError('file-not-found', { path: workspaceFile })
  return workspaceFile
}
