import { cross, dot, scaled, sum, type Vector } from '../../geometry/vector.ts'
import type { Agreement, BearingPlane } from './run-of-line.ts'
import type { Turning } from './turning.ts'

/** Products of a vector's components that an `Agreement` sums: xx, xy, xz, yy, yz, zz. */
const pairs = [
  [0, 0],
  [0, 1],
  [0, 2],
  [1, 1],
  [1, 2],
  [2, 2],
] as const
const harmonics = 4

/**
 * `Agreement` of one mark's bearings at every rate of a grid about one axis, for both senses at once.
 *
 * A vector turned back by θ about the axis n is a + cos θ·b − sin θ·d, with a its part along n, b the rest and
 * d = n × b. So its products are (aa + (bb + dd)/2) + cos θ·(ab + ba) + cos 2θ·(bb − dd)/2, even in θ, less
 * sin θ·(ad + da) + sin 2θ·(bd + db)/2, odd in it: rates of either sense share what they are made of.
 */
export class TurnedProducts {
  private readonly planes: BearingPlane[]
  /** Twelve sums (across, then ahead) of what does not turn. */
  private readonly still = new Float64Array(2 * pairs.length)
  /** For each of the twelve, by cos θ, cos 2θ, sin θ, sin 2θ: one factor a bearing. */
  private readonly factors: Float64Array
  private readonly turn: Float64Array

  constructor(planes: BearingPlane[]) {
    this.planes = planes
    this.factors = new Float64Array(2 * pairs.length * harmonics * planes.length)
    this.turn = new Float64Array(harmonics * planes.length)
  }

  /** Takes the axis that the next sums are about. */
  about(axis: Vector): void {
    this.still.fill(0)
    this.planes.forEach(({ across, ahead }, i) => {
      this.takeApart(axis, across, 0, i)
      this.takeApart(axis, ahead, pairs.length, i)
    })
  }

  private takeApart(axis: Vector, v: Vector, first: number, i: number): void {
    const { factors, still } = this
    const n = this.planes.length
    const a = scaled(axis, dot(axis, v))
    const b = sum(v, scaled(a, -1))
    const d = cross(axis, v)
    pairs.forEach(([x, y], pair) => {
      const at = (first + pair) * harmonics * n + i
      still[first + pair]! += a[x] * a[y] + (b[x] * b[y] + d[x] * d[y]) / 2
      factors[at] = a[x] * b[y] + b[x] * a[y]
      factors[at + n] = (b[x] * b[y] - d[x] * d[y]) / 2
      factors[at + 2 * n] = a[x] * d[y] + d[x] * a[y]
      factors[at + 3 * n] = (b[x] * d[y] + d[x] * b[y]) / 2
    })
  }

  /** The sums at the k-th rate of the table, and at the same rate the other way round. */
  sumUp({ cos, sin }: Turning, k: number, forwards: Agreement, backwards: Agreement): void {
    const { factors, still, turn } = this
    const n = this.planes.length
    for (let i = 0; i < n; i++) {
      const c = cos[k * n + i]!
      const s = sin[k * n + i]!
      turn[i] = c
      turn[n + i] = 2 * c * c - 1
      turn[2 * n + i] = s
      turn[3 * n + i] = 2 * c * s
    }
    for (let product = 0; product < 2 * pairs.length; product++) {
      const at = product * harmonics * n
      let even = still[product]!
      let odd = 0
      for (let i = 0; i < n; i++) {
        even += factors[at + i]! * turn[i]! + factors[at + n + i]! * turn[n + i]!
        odd += factors[at + 2 * n + i]! * turn[2 * n + i]! + factors[at + 3 * n + i]! * turn[3 * n + i]!
      }
      const sums = product < pairs.length ? 'across' : 'ahead'
      forwards[sums][product % pairs.length] = even - odd
      backwards[sums][product % pairs.length] = even + odd
    }
  }
}
