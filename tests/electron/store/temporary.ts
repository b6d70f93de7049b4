import { chmodSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'
import type { Clip } from '../../../core/contract/clip.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import type { Workspace } from '../../../electron/store/workspace.ts'
import { clip, session } from '../../core/marking/sample-records.ts'

/** A folder of the test's own, gone after it. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'whorl-store-'))
  chmodSync(folder, 0o755)
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

/** A clock that ticks a second a look, so that orders by time are certain. */
export function tickingClock(): () => Date {
  let seconds = 0
  return () => new Date(Date.UTC(2026, 4, 31, 9, 0, seconds++))
}

/** A workspace in a folder of its own; `reopen` closes it and opens the file again, as a restart does. */
export function temporaryWorkspace(file = join(temporaryFolder(), 'workspace.sqlite')) {
  const now = tickingClock()
  const holder = { file, workspace: openWorkspace(file, { now }) }
  onTestFinished(() => holder.workspace.close())
  return {
    file,
    get workspace(): Workspace {
      return holder.workspace
    },
    reopen(): Workspace {
      holder.workspace.close()
      holder.workspace = openWorkspace(file, { now })
      return holder.workspace
    },
  }
}

export const probeOf = (changes: Partial<Clip> = {}): Clip => ({ ...clip, ...changes })

/** A session with one clip and one hit on its frames 0 to 20. */
export function withOneHit(workspace: Workspace) {
  const sessionId = workspace.createSession(session).id
  const clipId = workspace.addClip(sessionId, {
    path: '/clips/drive 01.mp4',
    probe: probeOf(),
    problem: null,
    timestampsSeconds: Array.from({ length: 50 }, (_, frame) => frame / 240),
  }).id
  const hitId = workspace.createHit(clipId, { fromFrame: 0, toFrame: 20 }).row.hitId
  return { sessionId, clipId, hitId }
}

/** What is thrown by the work, for a look at its code and facts. */
export function thrownBy(work: () => unknown): unknown {
  try {
    work()
  } catch (thrown) {
    return thrown
  }
  throw new Error('nothing was thrown')
}

/** What a promise is rejected with. */
export async function rejectedBy(work: () => Promise<unknown>): Promise<unknown> {
  try {
    await work()
  } catch (thrown) {
    return thrown
  }
  throw new Error('nothing was thrown')
}
