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
  const s = (k: number) => across[k]! + ahead[k]!
  const soft = softening * count
  const l = new Float64Array(6)
  l[0] = Math.sqrt(s(0) + soft)
  l[1] = s(1) / l[0]!
  l[2] = s(2) / l[0]!
  l[3] = Math.sqrt(s(3) + soft - l[1]! ** 2)
  l[4] = (s(4) - l[1]! * l[2]!) / l[3]!
  l[5] = Math.sqrt(s(5) + soft - l[2]! ** 2 - l[4]! ** 2)
  return l
}

/** L⁻¹·(A + soft·I)·L⁻ᵀ, upper triangle. */
function whitenedBy(l: Float64Array, a: Float64Array, soft: number): Float64Array {
  const column = (x: number, y: number, z: number): [number, number, number] => {
    const p = x / l[0]!
    const q = (y - l[1]! * p) / l[3]!
    return [p, q, (z - l[2]! * p - l[4]! * q) / l[5]!]
  }
  const c0 = column(a[0]! + soft, a[1]!, a[2]!)
  const c1 = column(a[1]!, a[3]! + soft, a[4]!)
  const c2 = column(a[2]!, a[4]!, a[5]! + soft)
  const r0 = column(c0[0], c1[0], c2[0])
  const r1 = column(c0[1], c1[1], c2[1])
  const r2 = column(c0[2], c1[2], c2[2])
  return Float64Array.of(r0[0], r0[1], r0[2], r1[1], r1[2], r2[2])
}

/** Source: Smith, Comm. ACM 4 (1961) 168 (eigenvalues of a symmetric 3 × 3 matrix). */
function smallestEigenvalue(m: Float64Array): number {
  const [a, b, c, d, e, f] = m as unknown as [number, number, number, number, number, number]
  const mean = (a + d + f) / 3
  const spread = Math.sqrt(
    ((a - mean) ** 2 + (d - mean) ** 2 + (f - mean) ** 2 + 2 * (b * b + c * c + e * e)) / 6,
  )
  if (spread < 1e-15) return mean
  const [x, y, z] = [a - mean, d - mean, f - mean]
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
