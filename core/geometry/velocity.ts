import type { Outline } from '../contract/marks.ts'
import { linearLeastSquares } from '../numerics/linear-least-squares.ts'
import { type Pinhole, sphereOfOutline } from './outline-of-sphere.ts'
import { length, scaled, type Vector } from './vector.ts'

export type Velocity = {
  metresPerSecond: Vector
  speedUncertainty: number
  /** From the scatter of the places about their lines. */
  directionUncertaintyRad: number
  /** From the camera to the first place. */
  distanceMetres: number
}
export type TimedOutline = { timeSeconds: number; outline: Outline }

/** A ball's diameter is known to about 1 %: 2.87–2.97 in (USA Pickleball rulebook, 2.D), rectangular. */
const diameterRelative = 0.017 / Math.sqrt(3)

/**
 * The ball's velocity at the first outline, camera axes: its own size is the scale. A pinhole puts the ball at
 * toBall·distance in each frame; straight lines (from 8 frames on with a bend) through the three coordinates.
 * Null for fewer than three outlines.
 */
export function velocityOf(
  outlines: readonly TimedOutline[],
  camera: Pinhole,
  ballDiameterMetres: number,
): Velocity | null {
  const n = outlines.length
  const first = outlines[0]
  if (!first || n < 3) return null
  const bends = n >= 8
  const p = bends ? 3 : 2
  const places = outlines.map(({ outline }) => {
    const { toBall, distanceRadii } = sphereOfOutline(outline, camera)
    return scaled(toBall, (distanceRadii * ballDiameterMetres) / 2)
  })
  const design = outlines.flatMap(({ timeSeconds }) => {
    const t = timeSeconds - first.timeSeconds
    return bends ? [1, t, t * t] : [1, t]
  })
  const velocity: number[] = []
  let variance = 0
  for (const axis of [0, 1, 2] as const) {
    const fit = linearLeastSquares(
      design,
      places.map(place => place[axis]),
      p,
    )
    if (!fit) return null
    velocity.push(fit.coefficients[1]!)
    variance += (fit.covariance[p + 1]! * fit.sumOfSquares) / Math.max(n - p, 1)
  }
  const metresPerSecond = velocity as unknown as Vector
  return {
    metresPerSecond,
    directionUncertaintyRad: Math.sqrt(variance) / length(metresPerSecond),
    distanceMetres: length(places[0]!),
    speedUncertainty: Math.hypot(Math.sqrt(variance), diameterRelative * length(metresPerSecond)),
  }
}
