import type { Outline } from '../../contract/marks.ts'
import { placeRank } from '../../numerics/place-rank.ts'
import type { Luma } from '../luma.ts'
import { tonePower } from './light.ts'

export type Shift = { x: number; y: number; gain: number }

/** The gain of codes as a gain of light. */
export const lightGain = ({ gain }: Shift): number => gain ** tonePower

const mostRounds = 3
const samples = 4000

/**
 * How far the picture stands shifted against the background (px), and how much brighter it is: least squares
 * of I(p) = gain·B(p − shift) on the background's slopes, places that differ much left out (they moved).
 * A round that moves it by less than `settledPx` is the last.
 * Source: Lucas and Kanade, IJCAI 1981, p. 674, for one shift of the whole picture.
 */
export function shiftOf(frame: Luma, background: Luma, ball: Outline | null, settledPx = 1e-3): Shift {
  const gain = gainOf(frame, background)
  let [x, y] = [0, 0]
  for (let round = 0; round < mostRounds; round++) {
    const step = stepFrom(frame, background, ball, { x, y, gain })
    x += step.x
    y += step.y
    if (Math.hypot(step.x, step.y) < settledPx) break
  }
  return { x, y, gain }
}

/**
 * One round. The shift is the same for the whole picture, so that every sample lies alike between its pixels of the
 * background: B and its slopes are the same weights on the 4 × 4 around each.
 */
function stepFrom(frame: Luma, background: Luma, ball: Outline | null, shift: Shift) {
  const { widthPx, heightPx, data } = frame
  const still = background.data
  const stride = background.widthPx
  const step = Math.max(2, Math.round(Math.sqrt((widthPx * heightPx) / samples)))
  const [u, v] = [frame.xPx - background.xPx - shift.x, frame.yPx - background.yPx - shift.y]
  const [right, low] = [Math.floor(u), Math.floor(v)]
  const [a, b] = [u - right, v - low]
  const lastColumn = Math.min(widthPx - 3, stride - 3 - right)
  const lastRow = Math.min(heightPx - 3, background.heightPx - 3 - low)
  const reach = ball ? (1.4 * ball.radiusPx) ** 2 : -1
  const ballColumn = ball ? ball.xPx - frame.xPx - 0.5 : 0
  const ballRow = ball ? ball.yPx - frame.yPx - 0.5 : 0
  const light = 1 / shift.gain
  let xx = 0
  let xy = 0
  let yy = 0
  let xe = 0
  let ye = 0
  for (let row = 2; row <= lastRow; row += step) {
    if (row + low < 1) continue
    for (let column = 2; column <= lastColumn; column += step) {
      if (column + right < 1) continue
      if ((column - ballColumn) ** 2 + (row - ballRow) ** 2 < reach) continue
      const at = (row + low) * stride + column + right
      const below = at + stride
      const b10 = still[at]!
      const b11 = still[at + 1]!
      const b20 = still[below]!
      const b21 = still[below + 1]!
      const top = b10 + a * (b11 - b10)
      const bottom = b20 + a * (b21 - b20)
      const e = data[row * widthPx + column]! * light - (top + b * (bottom - top))
      if (e > 25 || e < -25) continue
      const slopeTop = b11 - still[at - 1]! + a * (still[at + 2]! - b11 - b10 + still[at - 1]!)
      const slopeBottom = b21 - still[below - 1]! + a * (still[below + 2]! - b21 - b20 + still[below - 1]!)
      const above = still[at - stride]! + a * (still[at - stride + 1]! - still[at - stride]!)
      const deep = still[below + stride]! + a * (still[below + stride + 1]! - still[below + stride]!)
      const gx = (slopeTop + b * (slopeBottom - slopeTop)) / 2
      const gy = (bottom - above + b * (deep - bottom - top + above)) / 2
      const weight = 1 / (1 + (e / 6) ** 2)
      xx += weight * gx * gx
      xy += weight * gx * gy
      yy += weight * gy * gy
      xe += weight * gx * e
      ye += weight * gy * e
    }
  }
  // A plain wall has no slopes to hold on to: it then counts as unmoved.
  xx += 400
  yy += 400
  const determinant = xx * yy - xy * xy
  return { x: -(yy * xe - xy * ye) / determinant, y: -(xx * ye - xy * xe) / determinant }
}

/** Ratio of the mean brightness, from the middle half of the pixels' ratios: lamps flicker. */
function gainOf({ data }: Luma, background: Luma): number {
  const still = background.data
  const step = Math.max(1, Math.floor(data.length / 1500))
  const found = new Float64Array(Math.ceil(data.length / step))
  let count = 0
  for (let at = 0; at < data.length; at += step) if (still[at]! > 12) found[count++] = data[at]! / still[at]!
  if (count < 20) return 1
  const ratios = found.subarray(0, count)
  const [from, to] = [count >> 2, (3 * count) >> 2]
  placeRank(ratios, from)
  placeRank(ratios, to, from)
  let sum = 0
  for (let k = from; k < to; k++) sum += ratios[k]!
  return sum / (to - from)
}
