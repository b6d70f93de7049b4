import { length, tangents, type Vector } from '../../geometry/vector.ts'
import { rowsOfPoint } from './model.ts'
import type { Solution } from './refine.ts'
import { openErrors } from './shared.ts'
import type { Sights } from './sights.ts'

/**
 * How the rate answers to each sighting, rad/s a pixel: ∂rate/∂(x, y) of a point, ∂rate/∂arc of a
 * direction (in x). This is the rate's row of (JᵀWJ)⁻¹JᵀW, weights and whitening included.
 */
export function rateGains(
  { points, directions }: Sights,
  { state, leastSquares, whitening }: Solution,
): { x: Float64Array; y: Float64Array } {
  const { jacobian, covariance, parameters } = leastSquares
  const p = parameters.length
  const rate = length(state.rotation)
  const pull = new Float64Array(p)
  for (let i = 0; i < p; i++) {
    for (let k = 0; k < 3; k++) pull[i]! += (covariance![i * p + k]! * state.rotation[k]!) / rate
  }
  const answer = (row: number) => {
    let sum = 0
    for (let i = 0; i < p; i++) sum += jacobian[row * p + i]! * pull[i]!
    return sum
  }
  const x = new Float64Array(points.length + directions.length)
  const y = new Float64Array(x.length)
  for (let i = 0; i < points.length; i++) {
    const [ax, ay] = [answer(rowsOfPoint * i), answer(rowsOfPoint * i + 1)]
    const [xx, xy, yy] = whitening.points.subarray(3 * i, 3 * i + 3)
    x[i] = xx! * ax + xy! * ay
    y[i] = xy! * ax + yy! * ay
  }
  for (let j = 0; j < directions.length; j++) {
    x[points.length + j] = whitening.directions[j]! * answer(rowsOfPoint * points.length + j)
  }
  return { x, y }
}

/**
 * What the shared errors, each held at 0 by its expected size, leave open in the rate: standard uncertainties,
 * rad/s, in the order of `SharedErrors`; 0 for those that are no unknowns.
 */
export function rateBySharedErrors({ state, leastSquares, whitening }: Solution): number[] {
  const { covariance, parameters } = leastSquares
  const p = parameters.length
  const open = openErrors(whitening.shared)
  const rate = length(state.rotation)
  return whitening.shared.map((trust, k) => {
    const at = p - open.length + open.indexOf(k)
    if (!open.includes(k)) return 0
    const alongAxis = state.rotation.reduce((sum, w, i) => sum + (w * covariance![i * p + at]!) / rate, 0)
    return Math.abs(trust * alongAxis)
  })
}

/** How well a solution knows its rotation, by straight-line propagation from errors as they were expected. */
export type RotationUncertainty = {
  /** Standard uncertainty of the rate, rad/s. */
  rate: number
  /** Root mean square angle between the axis and the true one, radians. */
  axisRad: number
  /** Variances of the axis along the two half axes of its error ellipse, rad², the larger first. */
  axisVariances: readonly [number, number]
}

/** Standard uncertainty of the rotation vector's component away from the camera, rad/s; infinite where nothing settles it. */
export const depthUncertainty = ({ leastSquares: { covariance, parameters } }: Solution): number =>
  covariance ? Math.sqrt(covariance[2 * (parameters.length + 1)]!) : Number.POSITIVE_INFINITY

export function uncertaintiesOf({ state, leastSquares }: Solution): RotationUncertainty {
  const { covariance, parameters } = leastSquares
  const p = parameters.length
  const between = (a: Vector, b: Vector) => {
    let sum = 0
    for (let i = 0; i < 3; i++) for (let k = 0; k < 3; k++) sum += a[i]! * covariance![i * p + k]! * b[k]!
    return sum
  }
  const rate = length(state.rotation)
  const [e1, e2] = tangents(state.rotation)
  const along = between(state.rotation, state.rotation) / rate ** 2
  const [xx, xy, yy] = [between(e1, e1), between(e1, e2), between(e2, e2)].map(v => v / rate ** 2) as [
    number,
    number,
    number,
  ]
  const mean = (xx + yy) / 2
  const apart = Math.hypot((xx - yy) / 2, xy)
  return {
    rate: Math.sqrt(along),
    axisRad: Math.sqrt(xx + yy),
    axisVariances: [mean + apart, Math.max(mean - apart, 0)],
  }
}
