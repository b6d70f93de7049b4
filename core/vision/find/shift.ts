import type { Outline } from '../../contract/marks.ts'
import type { Luma } from '../luma.ts'
import { brightnessAt } from '../luma.ts'
import { tonePower } from './light.ts'

export type Shift = { x: number; y: number; gain: number }

/** The gain of codes as a gain of light. */
export const lightGain = ({ gain }: Shift): number => gain ** tonePower

/**
 * How far the picture stands shifted against the background (px), and how much brighter it is: least squares
 * of I(p) = gain·B(p − shift) on the background's slopes, places that differ much left out (they moved).
 * Source: Lucas and Kanade, IJCAI 1981, p. 674, for one shift of the whole picture.
 */
export function shiftOf(frame: Luma, background: Luma, ball: Outline | null): Shift {
  let shift: Shift = { x: 0, y: 0, gain: gainOf(frame, background) }
  for (let round = 0; round < 3; round++) {
    let [xx, xy, yy, xe, ye] = [0, 0, 0, 0, 0]
    const { widthPx, heightPx } = frame
    const step = Math.max(2, Math.round(Math.sqrt((widthPx * heightPx) / 4000)))
    for (let row = 2; row < heightPx - 2; row += step)
      for (let column = 2; column < widthPx - 2; column += step) {
        const x = frame.xPx + column + 0.5
        const y = frame.yPx + row + 0.5
        if (ball && Math.hypot(x - ball.xPx, y - ball.yPx) < 1.4 * ball.radiusPx) continue
        const [u, v] = [x - shift.x, y - shift.y]
        const e = frame.data[row * widthPx + column]! / shift.gain - brightnessAt(background, u, v)
        if (Math.abs(e) > 25) continue
        const gx = (brightnessAt(background, u + 1, v) - brightnessAt(background, u - 1, v)) / 2
        const gy = (brightnessAt(background, u, v + 1) - brightnessAt(background, u, v - 1)) / 2
        const weight = 1 / (1 + (e / 6) ** 2)
        xx += weight * gx * gx
        xy += weight * gx * gy
        yy += weight * gy * gy
        xe += weight * gx * e
        ye += weight * gy * e
      }
    // A plain wall has no slopes to hold on to: it then counts as unmoved.
    xx += 400
    yy += 400
    const determinant = xx * yy - xy * xy
    shift = {
      ...shift,
      x: shift.x - (yy * xe - xy * ye) / determinant,
      y: shift.y - (xx * ye - xy * xe) / determinant,
    }
  }
  return shift
}

/** Ratio of the mean brightness, from the middle half of the pixels' ratios: lamps flicker. */
function gainOf(frame: Luma, background: Luma): number {
  const ratios: number[] = []
  const step = Math.max(1, Math.floor(frame.data.length / 1500))
  for (let at = 0; at < frame.data.length; at += step)
    if (background.data[at]! > 12) ratios.push(frame.data[at]! / background.data[at]!)
  if (ratios.length < 20) return 1
  ratios.sort((a, b) => a - b)
  const middle = ratios.slice(ratios.length >> 2, (3 * ratios.length) >> 2)
  return middle.reduce((sum, ratio) => sum + ratio, 0) / middle.length
}
