import type { BenchMark, PlacedSighting } from '../../../../core/contract/bench.ts'
import type { Reading } from '../../../../core/contract/reading.ts'
import type { BenchHit } from '../../../../core/contract/workspace.ts'
import { outlineAt } from '../../../../core/marking/outline-at.ts'
import { type Pointed, proposeMark } from '../../../../core/vision/propose.ts'
import type { LiveSource } from './live-reading.ts'

/** The focal length that a hit's rotation was read with, or the camera's; null: a far view. */
export const focalLengthOf = ({ session }: Pick<LiveSource, 'session'>, hit: BenchHit): number | null =>
  hit.surface?.focalLengthPx ?? session.camera.focalLengthPx

/**
 * Where a mark should be in every frame of the hit, by the rotation that was read: from the places where a
 * person clicked it, else from what stands out most on the ball. Empty without a rotation or a place to start.
 */
export function proposedMarks(
  source: LiveSource,
  hit: BenchHit,
  reading: Reading | null,
  mark: BenchMark,
): PlacedSighting[] {
  const { marks, clip, session, timesSeconds } = source
  if (!reading || !clip.probe || mark.kind !== 'point') return []
  const { fromFrame, toFrame } = marks.window
  const frames = Array.from({ length: toFrame - fromFrame + 1 }, (_, i) => fromFrame + i).flatMap(frame => {
    const outline = outlineAt(marks, frame, timesSeconds)
    return outline ? [{ frame, timeSeconds: timesSeconds[frame] ?? 0, outline }] : []
  })
  const clicked = marks.sightings.flatMap((seen): Pointed[] =>
    seen.kind === 'point' && seen.mark === mark.id && !seen.accepted
      ? [{ frame: seen.frame, xPx: seen.xPx, yPx: seen.yPx }]
      : [],
  )
  const feature = hit.surface?.feature
  return proposeMark(mark.id, clicked.length > 0 || !feature ? clicked : [feature], {
    reading,
    frames,
    picture: clip.probe,
    readoutSeconds: session.camera.readoutSeconds ?? 0,
    focalLengthPx: focalLengthOf(source, hit),
  })
}
