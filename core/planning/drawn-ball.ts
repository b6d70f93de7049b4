import type { PlanSetUp } from '../contract/plan.ts'
import { rotationFromVector, turnedBack } from '../geometry/rotation.ts'
import { cross, dot, scaled, type Vector } from '../geometry/vector.ts'
import { radPerSecondOfRpm } from '../units/rate.ts'
import { inViewOf } from './in-view.ts'
import { axisOf, type BallMark, ballMarksOf } from './planned-mark.ts'

export type DrawnBall = { widthPx: number; heightPx: number; luma: Uint8ClampedArray }

const instants = 15
const shades = { ground: 88, ball: 214, rim: 120, mark: 38 }
/** A dot's radius, and half a line's length and width, in ball radii. */
const dotRadius = 0.17
const lineHalf = { length: 0.55, width: 0.075 }
const arrowHead = { from: 0.15, slope: 0.55 }
const marginPx = 3

/**
 * The ball as the camera would see it in one frame, one value a pixel of the camera: its marks smeared by the
 * spin and the whole by the flight while the shutter is open. Seen from far away.
 *
 * @param frame counted from the one in which the first mark stands at its start
 */
export function drawnBall(setUp: PlanSetUp, frame: number): DrawnBall {
  const { ballDiameterPx, flightSmearPx } = inViewOf(setUp)
  const radiusPx = ballDiameterPx / 2
  const widthPx = Math.ceil(ballDiameterPx + flightSmearPx) + 2 * marginPx
  const heightPx = Math.ceil(ballDiameterPx) + 2 * marginPx
  const sums = new Float64Array(widthPx * heightPx)
  const marks = ballMarksOf(setUp, 0)
  for (let k = 0; k < instants; k++) {
    const share = (k + 0.5) / instants - 0.5
    const t = frame / setUp.captureFps + share * setUp.exposureSeconds
    const turn = rotationFromVector(scaled(axisOf(setUp), radPerSecondOfRpm(setUp.rpm) * t))
    const centreX = widthPx / 2 + share * flightSmearPx
    for (let i = 0; i < sums.length; i++) {
      const x = ((i % widthPx) + 0.5 - centreX) / radiusPx
      const y = (Math.floor(i / widthPx) + 0.5 - heightPx / 2) / radiusPx
      const outside = x * x + y * y
      sums[i]! += outside > 1 ? shades.ground : shadeAt([x, y, -Math.sqrt(1 - outside)], turn, marks)
    }
  }
  return { widthPx, heightPx, luma: Uint8ClampedArray.from(sums, sum => sum / instants) }
}

function shadeAt(u: Vector, turn: Parameters<typeof turnedBack>[0], marks: readonly BallMark[]): number {
  const onBall = turnedBack(turn, u)
  if (marks.some(mark => covers(mark, onBall))) return shades.mark
  return shades.rim + (shades.ball - shades.rim) * Math.sqrt(-u[2])
}

function covers({ place, run, symmetryOrder }: BallMark, u: Vector): boolean {
  if (dot(u, place) < 0) return false
  if (!run) return dot(u, place) > Math.cos(dotRadius)
  const along = dot(u, run)
  const across = Math.abs(dot(u, cross(place, run)))
  if (Math.abs(along) > lineHalf.length) return false
  const isHead = symmetryOrder === 1 && along > arrowHead.from
  return across < (isHead ? (lineHalf.length - along) * arrowHead.slope : lineHalf.width)
}
