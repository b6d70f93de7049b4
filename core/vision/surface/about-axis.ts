import { turnedBack } from '../../geometry/rotation.ts'
import { tangents, type Vector } from '../../geometry/vector.ts'
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

/**
 * How like two frames are after each of `angles` turns about an axis: correlation, and the share of a whole disc
 * that both show, pair after pair. A turn about the axis is a shift along rows of latitude, so that all turns
 * of all pairs come from one rolling out of each frame (correlation theorem of the Fourier series).
 */
export function likenessAbout(
  sheets: Sheets,
  sights: readonly Sight[],
  axis: Vector,
  pairs: readonly Pair[],
): { correlation: Float32Array; shared: Float32Array } {
  const [first, second] = tangents(axis)
  const rolled = new Map<number, Rolled>()
  const of = (i: number) => {
    const known = rolled.get(i) ?? rolledOut(sheets.values[i]!, sheets, sights[i]!, [first, second, axis])
    rolled.set(i, known)
    return known
  }
  const correlation = new Float32Array(pairs.length * angles)
  const shared = new Float32Array(pairs.length * angles)
  pairs.forEach(([i, j], p) => {
    const [a, b] = [of(i), of(j)]
    const same = shifted(a.pattern, b.pattern, waves)
    const own = shifted(a.square, b.mask, maskWaves)
    const other = shifted(a.mask, b.square, maskWaves)
    const seen = shifted(a.mask, b.mask, maskWaves)
    for (let k = 0; k < angles; k++) {
      const spread = own[k]! * other[k]!
      correlation[p * angles + k] = spread > 0 ? Math.max(-1, Math.min(1, same[k]! / Math.sqrt(spread))) : 0
      shared[p * angles + k] = Math.max(0, seen[k]! / wholeDisc)
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
  for (let row = 0; row < rows; row++) {
    const latitude = ((row + 0.5) / rows - 0.5) * Math.PI
    const [ring, up] = [Math.cos(latitude), Math.sin(latitude)]
    const root = Math.sqrt(ring)
    for (let k = 0; k < places; k++) {
      const [cos, sin] = [ring * cosines[places + k]!, ring * sines[places + k]!]
      const z = cos * a[2] + sin * b[2] + up * c[2]
      if (z > -facing) continue
      const u = (cos * a[0] + sin * b[0] + up * c[0] + 1) * half
      const v = (cos * a[1] + sin * b[1] + up * c[1] + 1) * half
      const at = Math.round(v) * size + Math.round(u)
      const weight = -z * root
      const value = sheet[at]!
      const weighted = weight * value
      for (let w = 0; w < waves; w++) {
        const [cw, sw] = [cosines[w * places + k]!, sines[w * places + k]!]
        const into = 2 * (row * waves + w)
        pattern[into]! += weighted * cw
        pattern[into + 1]! += weighted * sw
        if (w >= maskWaves) continue
        const maskInto = 2 * (row * maskWaves + w)
        square[maskInto]! += weighted * value * cw
        square[maskInto + 1]! += weighted * value * sw
        mask[maskInto]! += weight * cw
        mask[maskInto + 1]! += weight * sw
      }
    }
  }
  return { pattern, square, mask }
}

const turns = Float32Array.from({ length: angles }, (_, k) => (2 * Math.PI * k) / angles)
const turnCosines = Float32Array.from({ length: waves * angles }, (_, k) =>
  Math.cos(Math.floor(k / angles) * turns[k % angles]!),
)
const turnSines = Float32Array.from({ length: waves * angles }, (_, k) =>
  Math.sin(Math.floor(k / angles) * turns[k % angles]!),
)

/** Σ a(φ)·b(φ + θ) over rows and places for each θ. */
function shifted(a: Float32Array, b: Float32Array, count: number): Float32Array {
  const sums = new Float32Array(angles)
  for (let w = 0; w < count; w++) {
    let [even, odd] = [0, 0]
    for (let row = 0; row < rows; row++) {
      const at = 2 * (row * count + w)
      even += a[at]! * b[at]! + a[at + 1]! * b[at + 1]!
      odd += a[at]! * b[at + 1]! - a[at + 1]! * b[at]!
    }
    const twice = (w === 0 ? 1 : 2) / places
    for (let k = 0; k < angles; k++)
      sums[k]! += twice * (even * turnCosines[w * angles + k]! + odd * turnSines[w * angles + k]!)
  }
  return sums
}
