import { median } from '../../numerics/median.ts'

/** How well a ball at its outline accounts for what a frame changes there against the background. */
export type Likeness = {
  /** Share of the change that the model of a ball explains, 1 at best. */
  explained: number
  /** Mean change beyond the noise just outside the outline, over the mean change just inside it: 0 at best. */
  outside: number
}

/** Part of a pixel that is ball: from here on it counts as inside, and up to here as outside. */
const isIn = 0.98
const isOut = 0.02
/** Standard deviations of the noise outside that are no change. */
const noise = 2.5

/**
 * Of the pixels about a fitted rim: their light and the wall's behind them, what the fit left of it, and how far the ball
 * covers each. A ball as bright as the wall in half its rim explains little, as its holes are most of what changes; but
 * nothing changes outside of it, which the corners of a board do.
 */
export function likenessOf(
  { light, wall }: { light: readonly number[]; wall: readonly number[] },
  left: Float64Array,
  cover: Float64Array,
): Likeness {
  const change = light.map((seen, i) => Math.abs(seen - wall[i]!))
  const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0)
  const mean = (values: readonly number[]) => total(values) / Math.max(values.length, 1)
  const inside = change.filter((_, i) => cover[i]! > isIn)
  const beside = change.filter((_, i) => cover[i]! < isOut)
  const quiet = noise * 1.4826 * (beside.length > 0 ? median(beside) : 0)
  return {
    explained: 1 - total(Array.from(left, Math.abs)) / Math.max(total(change), 1e-9),
    outside: mean(beside.map(value => Math.max(0, value - quiet))) / Math.max(mean(inside), 1e-9),
  }
}
