import { turnedBack } from '../../geometry/rotation.ts'
import { scaled, tangents, type Vector } from '../../geometry/vector.ts'
import { facing } from './pair.ts'
import type { Sight } from './sights.ts'
import type { Pair } from './steps.ts'
import type { Sheets } from './textures.ts'

/** Rows of latitude about the axis, places along each, and how many waves round the ball are kept of them. */
const rows = 12
const places = 48
const waves = 14
const maskWaves = 7
/** Angles at which two frames are held against each other. */
export const angles = 72

const cosines = Float32Array.from({ length: waves * places }, (_, k) =>
  Math.cos((2 * Math.PI * Math.floor(k / places) * (k % places)) / places),
)
const sines = Float32Array.from({ length: waves * places }, (_, k) =>
  Math.sin((2 * Math.PI * Math.floor(k / places) * (k % places)) / places),
)

/** One frame's pattern rolled out about an axis, as waves: the pattern, its square and where it was seen. */
type Rolled = { pattern: Float32Array; square: Float32Array; mask: Float32Array }

/** Pairs of a set whose masks are looked at: they change little from pair to pair. */
const maskPairs = 4

/**
 * How like frames are after each of `angles` turns about an axis: correlation over all pairs of a set at once, and
 * the share of a whole disc that both frames of a pair show, set after set. A turn about the axis is a shift along
 * rows of latitude, so that all turns of all pairs come from one rolling out of each frame (correlation
 * theorem of the Fourier series), and pairs that lie equally far apart add up before they are turned.
 */
export function likenessAbout(
  sheets: Sheets,
  sights: readonly Sight[],
  axis: Vector,
  sets: readonly (readonly Pair[])[],
): { correlation: Float32Array; shared: Float32Array } {
  const [first, second] = tangents(axis)
  const rolled = sights.map((sight, i) => rolledOut(sheets.values[i]!, sheets, sight, [first, second, axis]))
  const correlation = new Float32Array(sets.length * angles)
  const shared = new Float32Array(sets.length * angles)
  sets.forEach((pairs, set) => {
    const few = pairs.filter((_, p) => p % Math.ceil(pairs.length / maskPairs) === 0)
    const of = (all: readonly Pair[], a: keyof Rolled, b: keyof Rolled, count: number) =>
      shifted(
        all.map(([i, j]) => [rolled[i]![a], rolled[j]![b]] as const),
        count,
      )
    const same = of(pairs, 'pattern', 'pattern', waves)
    const own = of(few, 'square', 'mask', maskWaves)
    const other = of(few, 'mask', 'square', maskWaves)
    const seen = of(few, 'mask', 'mask', maskWaves)
    for (let k = 0; k < angles; k++) {
      const spread = own[k]! * other[k]!
      correlation[set * angles + k] = spread > 0 ? Math.max(-1, Math.min(1, same[k]! / Math.sqrt(spread))) : 0
      shared[set * angles + k] = Math.max(0, seen[k]! / wholeDisc)
    }
  })
  return { correlation, shared }
}

/** Sum of the squared weights of a whole disc's places, in the units of `shifted`. */
const wholeDisc = (() => {
  let sum = 0
  for (let row = 0; row < rows; row++) {
    const latitude = ((row + 0.5) / rows - 0.5) * Math.PI
    for (let k = 0; k < places; k++) {
      const squarely = Math.cos(latitude) * Math.cos((2 * Math.PI * k) / places)
      if (squarely > facing) sum += Math.cos(latitude) * squarely * squarely
    }
  }
  return sum
})()

function rolledOut(
  sheet: Float32Array,
  { disc: { half, size } }: Sheets,
  { toCamera }: Sight,
  [first, second, axis]: readonly [Vector, Vector, Vector],
): Rolled {
  const [a, b, c] = [turnedBack(toCamera, first), turnedBack(toCamera, second), turnedBack(toCamera, axis)]
  const pattern = new Float32Array(rows * waves * 2)
  const square = new Float32Array(rows * maskWaves * 2)
  const mask = new Float32Array(rows * maskWaves * 2)
  const [weighted, squared, weights] = [
    new Float64Array(places),
    new Float64Array(places),
    new Float64Array(places),
  ]
  for (let row = 0; row < rows; row++) {
    const latitude = ((row + 0.5) / rows - 0.5) * Math.PI
    const ring = Math.cos(latitude)
    const root = Math.sqrt(ring)
    const [ax, ay, az] = scaled(a, ring)
    const [bx, by, bz] = scaled(b, ring)
    const [cx, cy, cz] = scaled(c, Math.sin(latitude))
    for (let k = 0; k < places; k++) {
      const cos = cosines[places + k]!
      const sin = sines[places + k]!
      const z = cos * az + sin * bz + cz
      if (z > -facing) {
        weights[k] = 0
        weighted[k] = 0
        squared[k] = 0
        continue
      }
      // Half a node more, for the cut to whole numbers to be the nearest.
      const column = ((cos * ax + sin * bx + cx + 1) * half + 0.5) | 0
      const line = ((cos * ay + sin * by + cy + 1) * half + 0.5) | 0
      const value = sheet[line * size + column]!
      const weight = -z * root
      weights[k] = weight
      weighted[k] = weight * value
      squared[k] = weight * value * value
    }
    intoWaves(weighted, pattern, row, waves)
    intoWaves(squared, square, row, maskWaves)
    intoWaves(weights, mask, row, maskWaves)
  }
  return { pattern, square, mask }
}

/**
 * The first `count` waves of one row, cosine and sine. Places half a row apart, and places as far before as after the
 * middle, share their cosines but for the sign: they are added up first. Spoils `row`.
 */
function intoWaves(row: Float64Array, into: Float32Array, at: number, count: number): void {
  const half = places / 2
  const quarter = places / 4
  for (let k = 0; k < half; k++) {
    const near = row[k]!
    const far = row[k + half]!
    row[k] = near + far
    row[k + half] = near - far
  }
  for (let w = 0; w < count; w++) {
    // Of even waves the sums count, of odd ones the differences; cosines mirror with the sign of (−1)^w, sines against it.
    const from = w % 2 === 0 ? 0 : half
    const sign = w % 2 === 0 ? 1 : -1
    const line = w * places
    let re = row[from]! + row[from + quarter]! * cosines[line + quarter]!
    let im = row[from + quarter]! * sines[line + quarter]!
    for (let k = 1; k < quarter; k++) {
      const one = row[from + k]!
      const other = sign * row[from + half - k]!
      re += (one + other) * cosines[line + k]!
      im += (one - other) * sines[line + k]!
    }
    const place = 2 * (w * rows + at)
    into[place] = re
    into[place + 1] = im
  }
}

const quarterTurn = angles / 4
const turnCosines = Float32Array.from({ length: waves * angles }, (_, k) =>
  Math.cos((2 * Math.PI * Math.floor(k / angles) * (k % angles)) / angles),
)
const turnSines = Float32Array.from({ length: waves * angles }, (_, k) =>
  Math.sin((2 * Math.PI * Math.floor(k / angles) * (k % angles)) / angles),
)

/**
 * Mean over the pairs (a, b) of Σ a(φ)·b(φ + θ) over rows and places, for each θ. Angles in all four quarters are
 * made of the same sums of even and odd waves, but for signs.
 */
function shifted(pairs: readonly (readonly [Float32Array, Float32Array])[], count: number): Float32Array {
  const sums = new Float32Array(angles)
  const cosine = new Float64Array(count)
  const sine = new Float64Array(count)
  for (const [a, b] of pairs) {
    for (let w = 0; w < count; w++) {
      let even = 0
      let odd = 0
      for (let at = 2 * w * rows; at < 2 * (w + 1) * rows; at += 2) {
        const re = a[at]!
        const im = a[at + 1]!
        even += re * b[at]! + im * b[at + 1]!
        odd += re * b[at + 1]! - im * b[at]!
      }
      cosine[w]! += even
      sine[w]! += odd
    }
  }
  for (let w = 0; w < count; w++) {
    const share = (w === 0 ? 1 : 2) / places / pairs.length
    cosine[w]! *= share
    sine[w]! *= share
  }
  for (let k = 0; k <= quarterTurn; k++) {
    let evenCos = 0
    let oddCos = 0
    let evenSin = 0
    let oddSin = 0
    for (let w = 0; w < count; w += 2) {
      evenCos += cosine[w]! * turnCosines[w * angles + k]!
      evenSin += sine[w]! * turnSines[w * angles + k]!
    }
    for (let w = 1; w < count; w += 2) {
      oddCos += cosine[w]! * turnCosines[w * angles + k]!
      oddSin += sine[w]! * turnSines[w * angles + k]!
    }
    sums[k] = evenCos + oddCos + evenSin + oddSin
    sums[(angles - k) % angles] = evenCos + oddCos - evenSin - oddSin
    sums[2 * quarterTurn + k] = evenCos - oddCos + evenSin - oddSin
    sums[2 * quarterTurn - k] = evenCos - oddCos - evenSin + oddSin
  }
  return sums
}
