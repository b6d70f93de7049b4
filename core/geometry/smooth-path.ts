import { linearLeastSquares } from '../numerics/linear-least-squares.ts'
import type { Circle } from './circle.ts'

export type SmoothPath = {
  /** As many and in the order of what was given. */
  outlines: Circle[]
  /** Root mean square distance of the given centres from the path, one coordinate, px. */
  scatterPx: number
}

/** From so many outlines on a path may bend once more. */
const forThirdPowers = 25
const fewest = 5

/** Highest power of time in the radius: away from the middle of the picture a ball looks larger, to either side. */
const radiusBends = 2

/**
 * Outlines of a ball in free flight on the smooth path that it takes: each coordinate of the centre a parabola
 * in time (in long windows a cubic), the radius a parabola. What gravity, drag and perspective
 * leave beside these in one flight is far below a click error. Null for fewer than five outlines.
 *
 * Outlines err on their own, or a few frames at a time where only some were placed and those between
 * interpolated: what of that no path of a ball has is taken out, and only errors as slow as the flight stay.
 */
export function smoothPath(timesSeconds: readonly number[], outlines: readonly Circle[]): SmoothPath | null {
  const n = timesSeconds.length
  if (n < fewest) return null
  const bends = n >= forThirdPowers ? 3 : 2
  const middle = (timesSeconds[0]! + timesSeconds.at(-1)!) / 2
  const half = (timesSeconds.at(-1)! - timesSeconds[0]!) / 2
  const late = timesSeconds.map(t => (t - middle) / half)
  const x = polynomial(
    late,
    outlines.map(o => o.xPx),
    bends,
  )
  const y = polynomial(
    late,
    outlines.map(o => o.yPx),
    bends,
  )
  const radius = polynomial(
    late,
    outlines.map(o => o.radiusPx),
    radiusBends,
  )
  if (!x || !y || !radius) return null
  const off = outlines.reduce((sum, o, i) => sum + (o.xPx - x[i]!) ** 2 + (o.yPx - y[i]!) ** 2, 0)
  return {
    outlines: outlines.map((_, i) => ({ xPx: x[i]!, yPx: y[i]!, radiusPx: radius[i]! })),
    scatterPx: Math.sqrt(off / (2 * (n - bends - 1))),
  }
}

/** Values of the polynomial of best fit at its own places. */
function polynomial(at: number[], values: number[], degree: number): number[] | null {
  const powers = Array.from({ length: degree + 1 }, (_, k) => k)
  const fit = linearLeastSquares(
    at.flatMap(t => powers.map(k => t ** k)),
    values,
    degree + 1,
  )
  return fit && at.map(t => powers.reduce((sum, k) => sum + fit.coefficients[k]! * t ** k, 0))
}
