import { median } from '../../numerics/median.ts'
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
    (_, k) => frames[Math.floor(((k + 0.5) * frames.length) / count)]!,
  )
  const data = new Float32Array(first.data.length)
  const values = new Float32Array(count)
  for (let at = 0; at < data.length; at++) {
    // Sorted in place as they come: for so few numbers nothing is faster, and there is one such row a pixel.
    for (let k = 0; k < count; k++) {
      const value = taken[k]!.data[at]!
      let place = k
      for (; place > 0 && values[place - 1]! > value; place--) values[place] = values[place - 1]!
      values[place] = value
    }
    data[at] = (values[(count - 1) >> 1]! + values[count >> 1]!) / 2
  }
  return { ...first, data }
}

/**
 * How much two pictures of a still scene differ from pixel to pixel, the lamp's flicker taken out: standard deviation
 * from the median size.
 */
export function noiseOf(frame: Luma, background: Luma, gain: number): number {
  const step = Math.max(1, Math.floor(frame.data.length / 4000))
  const sizes: number[] = []
  for (let at = 0; at < frame.data.length; at += step)
    sizes.push(Math.abs(frame.data[at]! - gain * background.data[at]!))
  return Math.max(1.4826 * median(sizes), 0.7)
}
