import type { Reading } from '../../../core/contract/reading.ts'
import type { Workspace } from '../../../electron/store/workspace.ts'
import { session } from '../../core/marking/sample-records.ts'
import { sampleReading } from '../store/sample-reading.ts'
import { probeOf } from '../store/temporary.ts'

export type HitGiven = {
  setUpId: string | null
  rpm: number
  reading?: Partial<Reading>
  verdict?: 'open' | 'accepted' | 'held-back'
  verdictReason?: string
  settled?: string
  methodVersion?: string
}

/** Puts hits into a workspace on a session of its own; answers their ids. */
export function giveHits(
  workspace: Workspace,
  hits: readonly HitGiven[],
  day = session.day,
  fps = 240,
): string[] {
  const sessionId = workspace.createSession({ ...session, day }).id
  const probe = probeOf({
    sha256: `${day} ${fps}`,
    capture: { fps, source: 'metadata', relativeUncertainty: 1e-4 },
  })
  const clipId = workspace.addClip(sessionId, {
    path: '/clips/drive 01.mp4',
    probe,
    problem: null,
    timestampsSeconds: [],
  }).id
  return hits.map((given, i) => {
    const { hitId } = workspace.createHit(clipId, { fromFrame: 10 * i, toFrame: 10 * i + 8 }).row
    workspace.assignHit(hitId, given.setUpId)
    if (given.settled)
      workspace.saveEdit(hitId, {
        kind: 'settle',
        settled: { rpm: given.rpm, sense: 'clockwise', reason: given.settled },
      })
    const reading = sampleReading({ rpm: given.rpm, ...given.reading })
    workspace.saveReading(hitId, reading, given.methodVersion ?? '1')
    const verdict = { state: given.verdict ?? 'accepted', reason: given.verdictReason ?? '' }
    workspace.saveEdit(hitId, { kind: 'decide', verdict })
    return hitId
  })
}

/** Three paddles: one clear figure, one settled with a hit held back, one that cannot be rated. */
export function fillWorkspace(workspace: Workspace) {
  const setUpOf = (name: string) => workspace.createPaddle({ name, notes: '' }).setUps[0]!.id
  const [heron, avocet, merlin] = [setUpOf('Heron 14'), setUpOf('Avocet 16'), setUpOf('Merlin X')]
  const ambiguous = { flag: 'ambiguous' as const, ceiling: { rpm: 3600, limit: 'sense' as const } }
  const hitIds = giveHits(workspace, [
    { setUpId: heron, rpm: 2300.123456789 },
    { setUpId: heron, rpm: 2340.5 },
    { setUpId: heron, rpm: 2310.25 },
    { setUpId: avocet, rpm: 2100, reading: ambiguous, settled: 'a topspin drive' },
    { setUpId: avocet, rpm: 2150 },
    { setUpId: avocet, rpm: 9000, verdict: 'open' },
    { setUpId: merlin, rpm: 4100, reading: ambiguous },
    { setUpId: null, rpm: 2000 },
  ])
  return { heron, avocet, merlin, hitIds }
}
