import { rotationFromVector, turnedBack } from '../../geometry/rotation.ts'
import { scaled, type Vector } from '../../geometry/vector.ts'
import { symmetricEigen } from '../../numerics/symmetric-eigen.ts'
import type { DirectionSight, Sights } from './sights.ts'

/**
 * A bearing as two vectors in camera axes: the body-fixed vector u that was seen has u·across = 0 and
 * u·ahead > 0. The third components are those of a line of sight off the middle of the picture.
 */
export type BearingPlane = { ahead: Vector; across: Vector }

export function bearingPlane({ bearingRad, view }: DirectionSight): BearingPlane {
  const [x, y, z] = view?.toBall ?? [0, 0, 1]
  const [cos, sin] = [Math.cos(bearingRad), Math.sin(bearingRad)]
  const third = (a: number, b: number) => -(a * x + b * y) / z
  return { ahead: [cos, sin, third(cos, sin)], across: [-sin, cos, third(-sin, cos)] }
}

/**
 * Σ of products of turned-back `across` and `ahead` vectors of one mark under a rotation: with v the vector
 * at time 0, vᵀ·across·v is how far its pictures miss the bearings and vᵀ·ahead·v how long they look.
 * Upper triangles: xx, xy, xz, yy, yz, zz.
 */
export type Agreement = { across: Float64Array; ahead: Float64Array }

export function addProduct(sums: Float64Array, x: number, y: number, z: number): void {
  sums[0]! += x * x
  sums[1]! += x * y
  sums[2]! += x * z
  sums[3]! += y * y
  sums[4]! += y * z
  sums[5]! += z * z
}

/** Keeps a vector that points at the camera, whose bearing means nothing, from agreeing with everything. */
const softening = 0.02

/**
 * The vector whose pictures agree best: it minimises vᵀ(across)v / vᵀ(across + ahead)v. This is the
 * smallest eigenvector of L⁻¹·across·L⁻ᵀ with across + ahead = L·Lᵀ, turned back by L⁻ᵀ.
 */
function bestVector({ across, ahead }: Agreement, count: number): Vector {
  const l = whole(across, ahead, count)
  const m = whitenedBy(l, across, softening * count)
  const { vectors } = symmetricEigen([m[0]!, m[1]!, m[2]!, m[1]!, m[3]!, m[4]!, m[2]!, m[4]!, m[5]!], 3)
  const [a, b, c] = vectors[0] as [number, number, number]
  const z = c / l[5]!
  const y = (b - l[4]! * z) / l[3]!
  const x = (a - l[1]! * y - l[2]! * z) / l[0]!
  const size = Math.hypot(x, y, z)
  return [x / size, y / size, z / size]
}

/** The smallest value of that ratio: 0 for perfect agreement, about the mean square of sin(error). */
export function leastMiss({ across, ahead }: Agreement, count: number): number {
  return smallestEigenvalue(whitenedBy(whole(across, ahead, count), across, softening * count))
}

/** Lower factor of across + ahead, softened: l00, l10, l20, l11, l21, l22. */
function whole(across: Float64Array, ahead: Float64Array, count: number): Float64Array {
  const soft = softening * count
  const l00 = Math.sqrt(across[0]! + ahead[0]! + soft)
  const l10 = (across[1]! + ahead[1]!) / l00
  const l20 = (across[2]! + ahead[2]!) / l00
  const l11 = Math.sqrt(across[3]! + ahead[3]! + soft - l10 * l10)
  const l21 = (across[4]! + ahead[4]! - l10 * l20) / l11
  const l = new Float64Array(6)
  l[0] = l00
  l[1] = l10
  l[2] = l20
  l[3] = l11
  l[4] = l21
  l[5] = Math.sqrt(across[5]! + ahead[5]! + soft - l20 * l20 - l21 * l21)
  return l
}

/** L⁻¹·(A + soft·I)·L⁻ᵀ, upper triangle: forward substitution from the left, then from the right. */
function whitenedBy(l: Float64Array, a: Float64Array, soft: number): Float64Array {
  const l00 = l[0]!
  const l10 = l[1]!
  const l20 = l[2]!
  const l11 = l[3]!
  const l21 = l[4]!
  const l22 = l[5]!
  // Rows of L⁻¹·A.
  const p0 = (a[0]! + soft) / l00
  const p1 = a[1]! / l00
  const p2 = a[2]! / l00
  const q0 = (a[1]! - l10 * p0) / l11
  const q1 = (a[3]! + soft - l10 * p1) / l11
  const q2 = (a[4]! - l10 * p2) / l11
  const r0 = (a[2]! - l20 * p0 - l21 * q0) / l22
  const r1 = (a[4]! - l20 * p1 - l21 * q1) / l22
  const r2 = (a[5]! + soft - l20 * p2 - l21 * q2) / l22
  const out = new Float64Array(6)
  out[0] = p0 / l00
  out[1] = q0 / l00
  out[2] = r0 / l00
  out[3] = (q1 - l10 * out[1]) / l11
  out[4] = (r1 - l10 * out[2]) / l11
  out[5] = (r2 - l20 * out[2] - l21 * out[4]) / l22
  return out
}

/** Source: Smith, Comm. ACM 4 (1961) 168 (eigenvalues of a symmetric 3 × 3 matrix). */
function smallestEigenvalue(m: Float64Array): number {
  const b = m[1]!
  const c = m[2]!
  const e = m[4]!
  const mean = (m[0]! + m[3]! + m[5]!) / 3
  const x = m[0]! - mean
  const y = m[3]! - mean
  const z = m[5]! - mean
  const spread = Math.sqrt((x * x + y * y + z * z + 2 * (b * b + c * c + e * e)) / 6)
  if (spread < 1e-15) return mean
  const half = (x * (y * z - e * e) - b * (b * z - e * c) + c * (b * e - y * c)) / (2 * spread ** 3)
  const angle = Math.acos(Math.min(Math.max(half, -1), 1)) / 3
  return mean + 2 * spread * Math.cos(angle + (2 * Math.PI) / 3)
}

/** The vector at time 0 that a mark's bearings ask for under a rotation, and its score Σ 2(1 − cos mΔ)/m². */
export function bestRun(
  { directions, marks }: Sights,
  mark: number,
  rotation: Vector,
): { run: Vector; score: number } {
  const order = marks[mark]!.symmetryOrder
  const agreement: Agreement = { across: new Float64Array(6), ahead: new Float64Array(6) }
  const seen = directions
    .filter(s => s.mark === mark)
    .map(s => {
      const r = rotationFromVector(scaled(rotation, s.timeSeconds))
      const { across, ahead } = bearingPlane(s)
      const back = { across: turnedBack(r, across), ahead: turnedBack(r, ahead) }
      addProduct(agreement.across, ...back.across)
      addProduct(agreement.ahead, ...back.ahead)
      return back
    })
  const vector = bestVector(agreement, seen.length)
  const scoreOf = (run: Vector) =>
    seen.reduce((sum, { across, ahead }) => {
      const y = across[0] * run[0] + across[1] * run[1] + across[2] * run[2]
      const x = ahead[0] * run[0] + ahead[1] * run[1] + ahead[2] * run[2]
      return sum + (2 * (1 - Math.cos(order * Math.atan2(y, x)))) / (order * order)
    }, 0)
  const ways = [vector, scaled(vector, -1)].map(run => ({ run, score: scoreOf(run) }))
  return ways[0]!.score <= ways[1]!.score ? ways[0]! : ways[1]!
}
