import { join } from 'node:path'
import { expect, vi } from 'vitest'
import type { BenchHit } from '../../../core/contract/workspace.ts'
import type { AppHost } from '../../../electron/service/app-host.ts'
import { clicksOf, demoIn } from '../../../electron/service/demo-file.ts'
import { missingEdits } from '../../../electron/service/missing-edits.ts'
import { openHost } from '../../../electron/service/open-host.ts'

const samples = join(import.meta.dirname, '../../../sample-clips')
const sampleClip = 'topspin-240-a.mp4'
const context = { signal: new AbortController().signal, progress: () => {} }

/** A workspace with one sample clip whose hit is marked, as a person would have done it. */
export async function markedSample(workspaceFile: string): Promise<{ host: AppHost; hit: BenchHit }> {
  const host = openHost({ workspaceFile, shell: 'desktop', folders: null, pick: null })
  const { service } = host
  const { details } = demoIn(samples).sessions[0]!
  const { id: sessionId } = await service['sessions.create']({ details }, context)
  const { clips } = await service['clips.add']({ sessionId, paths: [join(samples, sampleClip)] }, context)
  const clicks = clicksOf(samples, sampleClip)
  const frames = clicks.frames.map(frame => frame.index)
  const window = { fromFrame: Math.min(...frames), toFrame: Math.max(...frames) }
  const clipId = clips[0]!.id
  await vi.waitFor(
    async () => expect((await service['clips.open']({ clipId }, context)).clip.probe).not.toBeNull(),
    { timeout: 90_000, interval: 100 },
  )
  let hit = await service['hits.create']({ clipId, window }, context)
  const { hitId } = hit.row
  for (const edit of missingEdits(hit.marks, clicks))
    hit = await service['hits.edit']({ hitId, edit }, context)
  return { host, hit }
}
