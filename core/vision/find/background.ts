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
    for (let k = 0; k < count; k++) {
      const value = taken[k]![at]!
      let place = k
      for (; place > 0 && values[place - 1]! > value; place--) values[place] = values[place - 1]!
      values[place] = value
    }
    out[at] = (values[(count - 1) >> 1]! + values[count >> 1]!) / 2
  }
  return out
}

/**
 * As `middles` for an odd number of 8-bit pictures, which is what clips give: up or down from the mean until no more
 * than half lie on either side. Where nothing moved that is a step at most, with no branch that depends on noise.
 */
function middleCodes(taken: readonly Uint8Array[]): Float32Array {
  const count = taken.length
  const half = count >> 1
  const out = new Float32Array(taken[0]!.length)
  const values = new Int32Array(count)
  for (let at = 0; at < out.length; at++) {
    let sum = half
    for (let k = 0; k < count; k++) {
      const value = taken[k]![at]!
      values[k] = value
      sum += value
    }
    let code = Math.floor(sum / count)
    for (;;) {
      let below = 0
      let above = 0
      for (let k = 0; k < count; k++) {
        // The sign bit: 1 where the difference is negative.
        below += (values[k]! - code) >>> 31
        above += (code - values[k]!) >>> 31
      }
      if (below > half) code--
      else if (above > half) code++
      else break
    }
    out[at] = code
  }
  return out
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
