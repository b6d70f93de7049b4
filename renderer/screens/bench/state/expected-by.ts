import type { BenchMark } from '../../../../core/contract/bench.ts'
import { outlineAt } from '../../../../core/marking/outline-at.ts'
import type { Estimate } from '../../../../core/spin/estimate.ts'
import type { Observations } from '../../../../core/spin/observations.ts'
import { type BallAt, type Expected, expectedMark } from './expected-mark.ts'
import type { LiveSource } from './live-reading.ts'

/** Where a fit has the marks in any frame of the clip. */
export function expectedBy(
  source: LiveSource,
  observations: Observations,
  estimate: Estimate,
): (mark: BenchMark, frame: number) => Expected | null {
  const { marks: hit, timesSeconds } = source
  const ballAt = (frame: number): BallAt | null => {
    const outline = outlineAt(hit, frame, timesSeconds)
    return outline && { timeSeconds: timesSeconds[frame] ?? 0, outline }
  }
  return (mark, frame) => {
    const index = hit.marks.findIndex(each => each.id === mark.id)
    const ball = ballAt(frame)
    if (!ball) return null
    const frameOf = (each: { frame: number }) => observations.frames[each.frame]!.index
    const nearest = estimate.modelled
      .filter(each => each.mark === index && !each.hidden)
      .sort((a, b) => Math.abs(frameOf(a) - frame) - Math.abs(frameOf(b) - frame))[0]
    const known = nearest && ballAt(frameOf(nearest))
    if (!nearest || !known) return null
    return expectedMark(estimate, { at: nearest, ball: known }, ball, mark, reachOf(observations, index))
  }
}

/** How far out a mark was seen on average, as a share of the ball's radius. */
function reachOf(observations: Observations, mark: number): number {
  const shares = observations.sightings.flatMap(seen => {
    const outline = observations.frames[seen.frame]!.outline
    if (seen.mark !== mark || seen.kind !== 'point' || !outline) return []
    return [Math.hypot(seen.xPx - outline.xPx, seen.yPx - outline.yPx) / outline.radiusPx]
  })
  return shares.reduce((sum, share) => sum + share, 0) / Math.max(1, shares.length)
}
