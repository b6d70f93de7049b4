import type { Edit, HitMarks } from '../../../core/contract/bench.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { BenchHit, HitRow } from '../../../core/contract/workspace.ts'
import { applyEdit } from '../../../core/marking/apply-edit.ts'
import { newHitMarks } from '../../../core/marking/new-hit-marks.ts'
import { HostProblem } from '../../../renderer/host/host.ts'
import { details, probeOf, type StandInData } from '../stand-in-data.ts'
import { type StandIn, standInHost } from '../stand-in-host.ts'
import { pictureOf, type TurningBall, turningBall } from './turning-ball.ts'

type Given = {
  marks?: Partial<HitMarks>
  ball?: TurningBall
  captureFps?: number | null
  /** Refuses an edit before it is applied. */
  refuse?: (edit: Edit) => boolean
}
export type BenchHost = StandIn & { marks: () => HitMarks }

/** A host in memory that holds one hit of a drawn ball and keeps, undoes and redoes edits as a real one does. */
export function benchHost({
  marks = {},
  ball = turningBall,
  captureFps = ball.fps,
  refuse,
}: Given = {}): BenchHost {
  let shown: HitMarks = { ...newHitMarks({ fromFrame: 12, toFrame: 35 }), ...marks }
  const undone: HitMarks[] = []
  const done: HitMarks[] = []
  const data = oneHit(ball, captureFps, shown)
  const answer = (): BenchHit => {
    const row = { ...data.hits[0]!, window: shown.window, verdict: shown.verdict }
    data.hits = [row, ...data.hits.slice(1)]
    return { row, marks: shown, canUndo: done.length > 0, canRedo: undone.length > 0 }
  }
  const move = (from: HitMarks[], to: HitMarks[]) => {
    const next = from.pop()
    if (next) {
      to.push(shown)
      shown = next
    }
    return answer()
  }
  const host = standInHost(data, {
    frame: async (_clip, frame) => pictureOf(ball, frame),
    'hits.open': answer,
    'hits.edit': ({ edit }) => {
      if (refuse?.(edit))
        throw new HostProblem(new WhorlError('disk-full', { path: 'workspace.sqlite' }).toProblem())
      const next = applyEdit(shown, edit).hit
      done.push(shown)
      undone.length = 0
      shown = next
      return answer()
    },
    'hits.undo': () => move(done, undone),
    'hits.redo': () => move(undone, done),
    'clips.open': () => ({
      clip: data.clips[0]!,
      timestampsSeconds: Array.from({ length: ball.frames }, (_, frame) => frame / ball.fps),
    }),
  })
  return { ...host, marks: () => shown }
}

function oneHit(ball: TurningBall, captureFps: number | null, marks: HitMarks): StandInData {
  const session = { ...details(), id: 'session-1', clips: 1, hits: 3, accepted: 0, heldBack: 0 }
  // The drawn ball is the same from all sides of the picture: a camera from very far.
  session.camera = { ...session.camera, captureFps, focalLengthPx: 40_000, readoutSeconds: 0 }
  const row = (hitId: string, fromFrame: number): HitRow => ({
    hitId,
    clipId: 'clip-1',
    sessionId: session.id,
    clipName: 'drive-07.mov',
    day: session.day,
    setUpId: 'set-up-1',
    paddle: 'Fennick 14',
    setUp: 'stock',
    window: { fromFrame, toFrame: fromFrame + 20 },
    verdict: { state: 'open', reason: '' },
    reading: null,
    methodVersion: null,
    stale: false,
    notes: '',
  })
  return {
    sessions: [session],
    clips: [
      {
        id: 'clip-1',
        sessionId: session.id,
        name: 'drive-07.mov',
        path: '/clips/drive-07.mov',
        probe: probeOf({
          widthPx: ball.widthPx,
          heightPx: ball.heightPx,
          frames: ball.frames,
          playbackFps: ball.fps,
          timestamps: { tickSeconds: null, even: true, gaps: [], repeats: [] },
          capture: {
            fps: captureFps,
            source: captureFps === null ? 'unknown' : 'timestamps',
            relativeUncertainty: captureFps === null ? null : 0.0005,
          },
        }),
        problem: null,
        hits: 3,
        accepted: 0,
      },
    ],
    hits: [{ ...row('hit-1', 12), window: marks.window }, row('hit-2', 20), row('hit-3', 30)],
    paddles: [],
  }
}
