import { copyFileSync, mkdtempSync, realpathSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'
import type { CallChecked, CallContext, CallName } from '../../core/contract/calls.ts'
import type { AppHost } from '../../electron/service/app-host.ts'
import { openHost } from '../../electron/service/open-host.ts'
import { places } from '../../electron/service/places.ts'
import { session } from '../core/marking/sample-records.ts'

/** A folder of the test's own, gone after it. */
export function ownFolder(): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'whorl-faults-')))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

/** The real host on a workspace, decoders and all; the test asks it as a page does. */
export function hostOn(workspaceFile: string) {
  const host: AppHost = openHost({ workspaceFile, shell: 'desktop', folders: null, pick: null })
  onTestFinished(() => host.close())
  const ask = <N extends CallName>(name: N, input: CallChecked<N>, context: Partial<CallContext> = {}) =>
    host.service[name](input, { signal: new AbortController().signal, progress: () => {}, ...context })
  return { host, ask }
}
export type Ask = ReturnType<typeof hostOn>['ask']

export const sampleClip = 'fast-240-a.mp4'

/** A copy of a sample clip beside the workspace, added to a session, with one hit that holds three marks. */
export async function withMarkedClip(folder: string, ask: Ask) {
  const path = join(folder, 'drive.mp4')
  copyFileSync(join(places.samples, sampleClip), path)
  const { id: sessionId } = await ask('sessions.create', { details: session })
  const [clip] = (await ask('clips.add', { sessionId, paths: [path] })).clips
  const { row } = await ask('hits.create', { clipId: clip!.id, window: { fromFrame: 2, toFrame: 14 } })
  for (const frame of [2, 3, 4])
    await ask('hits.edit', {
      hitId: row.hitId,
      edit: {
        kind: 'place-sighting',
        sighting: { kind: 'point', frame, mark: 'logo', xPx: 400 + frame, yPx: 200 },
      },
    })
  return { path, sessionId, clipId: clip!.id, hitId: row.hitId }
}

export const codeOf = (work: Promise<unknown>): Promise<string> =>
  work.then(
    () => 'fine',
    error => (error as { code?: string }).code ?? String(error),
  )
