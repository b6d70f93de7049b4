import { placeRank } from '../../numerics/place-rank.ts'
import type { Luma } from '../luma.ts'

const fewest = 3
const most = 15

/**
 * What stands still: the median of each pixel over up to 15 pictures of one size, spread over those given. A
 * ball that passes covers a pixel in less than half of them. Null when there are too few pictures.
 */
export function backgroundOf(frames: readonly Luma[]): Luma | null {
  const first = frames[0]
  if (!first || frames.length < fewest) return null
  const count = Math.min(most, frames.length)
  const taken = Array.from(
    { length: count },
    (_, k) => frames[Math.floor(((k + 0.5) * frames.length) / count)]!.data,
  )
  const codes = taken.filter(data => data instanceof Uint8Array)
  const isPlain = codes.length === count && count % 2 === 1
  return { ...first, data: isPlain ? middleCodes(codes) : middles(taken) }
}

/** The median of each place; of an even number the mean of the middle two. */
function middles(taken: readonly Luma['data'][]): Float32Array {
  const count = taken.length
  const out = new Float32Array(taken[0]!.length)
  const values = new Float32Array(count)
  for (let at = 0; at < out.length; at++) {
    for (let k = 0; k < count; k++) values[k] = taken[k]![at]!
    sortFew(values)
    out[at] = (values[(count - 1) >> 1]! + values[count >> 1]!) / 2
  }
  return out
}

/**
 * As `middles` for an odd number of 8-bit pictures, which is what clips give. Where nothing moved the median is mostly
 * the rounded mean; elsewhere it is near the one beside it. Counting shows it with no branch that depends on the noise.
 */
function middleCodes(taken: readonly Uint8Array[]): Float32Array {
  const count = taken.length
  const out = new Float32Array(taken[0]!.length)
  const codes = new Int32Array(count)
  let beside = 0
  for (let at = 0; at < out.length; at++) {
    let sum = count >> 1
    for (let k = 0; k < count; k++) {
      const code = taken[k]![at]!
      codes[k] = code
      sum += code
    }
    const mean = Math.floor(sum / count)
    if (sideOf(codes, mean) === 0) beside = mean
    else for (let side = sideOf(codes, beside); side !== 0; side = sideOf(codes, beside)) beside += side
    out[at] = beside
  }
  return out
}

/** Where the median of an odd number of codes lies: −1 below `code`, 1 above it, 0 at it. */
function sideOf(codes: Int32Array, code: number): -1 | 0 | 1 {
  let below = 0
  let above = 0
  for (let k = 0; k < codes.length; k++) {
    // The sign bit: 1 where the difference is negative.
    below += (codes[k]! - code) >>> 31
    above += (code - codes[k]!) >>> 31
  }
  const half = codes.length >> 1
  return below > half ? -1 : above > half ? 1 : 0
}

/** By insertion: for so few numbers nothing is faster. */
function sortFew(values: Float32Array): void {
  for (let k = 1; k < values.length; k++) {
    const value = values[k]!
    let place = k
    for (; place > 0 && values[place - 1]! > value; place--) values[place] = values[place - 1]!
    values[place] = value
  }
}

/**
 * How much two pictures of a still scene differ from pixel to pixel, the lamp's flicker taken out: standard deviation
 * from the median size, `least` where it is less.
 */
export function noiseOf(frame: Luma, background: Luma, gain: number, least: number): number {
  const { data } = frame
  const still = background.data
  const step = Math.max(1, Math.floor(data.length / 4000))
  const sizes = new Float64Array(Math.ceil(data.length / step))
  const least50 = least / normal
  let below = 0
  for (let at = 0, k = 0; at < data.length; at += step, k++) {
    const size = Math.abs(data[at]! - gain * still[at]!)
    sizes[k] = size
    if (size < least50) below++
  }
  // Most are smaller, so the middle one is: no need to look for it.
  if (below > (sizes.length >> 1) + 1) return least
  return Math.max(normal * placeRank(sizes, sizes.length >> 1), least)
}

/** Standard deviation of a normal spread whose median size is 1: 1/Φ⁻¹(¾). */
const normal = 1.4826
