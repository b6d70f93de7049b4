import type { BenchMark } from '../../../../core/contract/bench.ts'
import type { Outline } from '../../../../core/contract/marks.ts'
import { ballView, heightOverRim, pixelOf, placeAt } from '../../../../core/geometry/ball-view.ts'
import { rotationFromVector, turned } from '../../../../core/geometry/rotation.ts'
import { scaled } from '../../../../core/geometry/vector.ts'
import type { Estimate, ModelledMark } from '../../../../core/spin/estimate.ts'
import { degOfRad } from '../../../../core/units/angle.ts'

/** Where the fit has a mark in a frame. `xPx` is null for a mark that is followed as a direction. */
export type Expected = { bearingDeg: number; xPx: number | null; yPx: number | null; hidden: boolean }
/** A frame as the fit needs it: when it was, and where the ball is in it. */
export type BallAt = { timeSeconds: number; outline: Outline }

/**
 * Where the fit has a mark in any frame, whether or not something was marked in it: the model's place in
 * the nearest frame that it knows, turned on by the rate.
 *
 * @param reach how far out a point mark was seen, as a share of the radius: the bearing method knows
 *   bearings only, and the crosshair has to stand somewhere along it
 */
export function expectedMark(
  estimate: Estimate,
  known: { at: ModelledMark; ball: BallAt },
  ball: BallAt,
  mark: BenchMark,
  reach: number,
): Expected {
  const seconds = ball.timeSeconds - known.ball.timeSeconds
  if (estimate.method !== 'sphere' || known.at.xPx === null || known.at.yPx === null) {
    const bearingRad = known.at.bearingRad + estimate.rateRadPerSecond * seconds
    const point = mark.kind === 'point'
    return {
      bearingDeg: degOfRad(bearingRad),
      xPx: point ? ball.outline.xPx + reach * ball.outline.radiusPx * Math.cos(bearingRad) : null,
      yPx: point ? ball.outline.yPx + reach * ball.outline.radiusPx * Math.sin(bearingRad) : null,
      hidden: false,
    }
  }
  const start = placeAt(ballView(known.ball.outline, null), known.at.xPx, known.at.yPx)
  const place = turned(rotationFromVector(scaled(estimate.rotationRadPerSecond, seconds)), start)
  const view = ballView(ball.outline, null)
  const [xPx, yPx] = pixelOf(view, place)
  return {
    bearingDeg: degOfRad(Math.atan2(place[1], place[0])),
    xPx,
    yPx,
    hidden: heightOverRim(view, place) < 0,
  }
}
