import type { Outline } from '../../contract/marks.ts'
import { median } from '../../numerics/median.ts'
import { brightnessAt, type Luma } from '../luma.ts'
import { type CircleFit, circleFit, type RimPoint } from './circle-fit.ts'
import type { Shift } from './shift.ts'

/** An outline found in one frame, and how far it can be trusted. */
export type FoundOutline = CircleFit & {
  /** Share of the directions in which the rim was seen where the circle has it, 0 to 1. */
  seenPart: number
}
/** Motion of the ball while the sensor reads a pixel row, px: lower rows show it further on. */
export type Skew = { x: number; y: number }

const directions = 72
/** Less than so many grey levels between ball and background is no rim. */
const leastContrast = 6

/**
 * The ball's circle near a guess, to a fraction of a pixel: along rays from the middle, where the difference to
 * the background falls to half of what it is just inside the rim; seen from outside, so that holes do not count.
 * A blur by lens or flight smears that step evenly and leaves its middle in place.
 */
export function outlineIn(
  frame: Luma,
  background: Luma,
  shift: Shift,
  guess: Outline,
  radiusPrior: { radiusPx: number; uncertaintyPx: number } | null,
  skew: Skew = { x: 0, y: 0 },
): FoundOutline | null {
  let outline = guess
  let fit: CircleFit | null = null
  for (let round = 0; round < 4; round++) {
    const wide = round === 0 ? 0.45 : 0.25
    const points = rimPoints(frame, background, shift, outline, wide, skew)
    fit = circleFit(points, outline, radiusPrior)
    if (!fit) return null
    const moved = Math.hypot(fit.outline.xPx - outline.xPx, fit.outline.yPx - outline.yPx)
    outline = fit.outline
    if (round > 0 && moved < 0.05) break
  }
  return fit && { ...fit, seenPart: fit.inliers / directions }
}

function rimPoints(
  frame: Luma,
  background: Luma,
  shift: Shift,
  { xPx, yPx, radiusPx }: Outline,
  wide: number,
  skew: Skew,
): RimPoint[] {
  const step = Math.min(1, radiusPx / 25)
  const first = 0.7 * radiusPx
  const last = (1 + wide) * radiusPx + 2
  const count = Math.ceil((last - first) / step)
  const profiles: Float64Array[] = []
  for (let k = 0; k < directions; k++) {
    const turn = (2 * Math.PI * k) / directions
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
    profiles.push(
      Float64Array.from({ length: count }, (_, i) => {
        const down = (first + i * step) * sin
        const x = xPx + (first + i * step) * cos + skew.x * down
        const y = yPx + down * (1 + skew.y)
        return isInside(frame, x, y)
          ? brightnessAt(frame, x, y) - shift.gain * brightnessAt(background, x - shift.x, y - shift.y)
          : Number.NaN
      }),
    )
  }
  return profiles.flatMap((profile, k) => {
    const inside = Array.from(
      profile.subarray(Math.floor((0.1 * radiusPx) / step), Math.floor((0.24 * radiusPx) / step) + 1),
    )
    const level = median(inside)
    if (!(Math.abs(level) >= leastContrast)) return []
    const at = outermost(profile, level / 2)
    if (at === null) return []
    const distance = first + at * step
    const turn = (2 * Math.PI * k) / directions
    return [{ x: xPx + distance * Math.cos(turn), y: yPx + distance * Math.sin(turn) }]
  })
}

/** Where a profile first reaches the level, coming from outside; null where it is there from the start. */
function outermost(profile: Float64Array, level: number): number | null {
  const sign = Math.sign(level)
  const last = profile.length - 1
  for (let i = last; i > 0; i--) {
    const inner = sign * profile[i - 1]!
    const outer = sign * profile[i]!
    if (Number.isNaN(inner) || Number.isNaN(outer)) continue
    if (inner < sign * level) continue
    if (i === last || outer >= sign * level) return null
    return i - (sign * level - outer) / (inner - outer)
  }
  return null
}

const isInside = ({ xPx, yPx, widthPx, heightPx }: Luma, x: number, y: number): boolean =>
  x >= xPx + 0.5 && y >= yPx + 0.5 && x <= xPx + widthPx - 0.5 && y <= yPx + heightPx - 0.5
