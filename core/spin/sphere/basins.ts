import { dot, scaled, sum, type Vector } from '../../geometry/vector.ts'
import type { Sights } from './sights.ts'

/** A rate about an axis that a search found; the lower the score the better. */
export type Found = { axis: Vector; rate: number; score: number }
/** Where a refinement may begin: a rotation vector and each mark's place at time 0. */
export type Start = { rotation: Vector; places: Vector[]; score: number }

/** Between two neighbouring rates the ends of the hit turn against each other by an eighth of a repeat. */
const stepsPerTurnOfSpan = 4

/** Rates that a search looks at: −count·step to count·step, one beyond the largest on either side. */
export function rateGrid(sights: Sights, maxRate: number): { step: number; count: number } {
  const repeat = Math.max(...sights.marks.map(mark => mark.symmetryOrder))
  const step = (2 * Math.PI) / (stepsPerTurnOfSpan * repeat * sights.spanSeconds)
  return { step, count: Math.ceil(maxRate / step) + 1 }
}

/** The best of each basin, best first, none worse than `worst(best score)`. */
export function basinsOf(
  found: Found[],
  spanSeconds: number,
  most: number,
  worst: (best: number) => number,
): Found[] {
  found.sort((a, b) => a.score - b.score)
  const limit = worst(found[0]?.score ?? 0)
  const kept: Found[] = []
  for (const f of found) {
    if (kept.length === most || f.score > limit) break
    if (!kept.some(k => sameBasin(k, f, spanSeconds))) kept.push(f)
  }
  return kept
}

/** Axes closer than about 20° share a basin: through a mark that hides for most of each turn, others do not. */
const nearAxes = 0.94

/** Two that put the marks within about 35° of each other all through the hit. */
function sameBasin(a: Found, b: Found, spanSeconds: number): boolean {
  const near = 0.6
  const half = spanSeconds / 2
  const between = dot(a.axis, b.axis)
  if (between > nearAxes && Math.abs(a.rate - b.rate) * half < near) return true
  if (between < -nearAxes && Math.abs(a.rate + b.rate) * half < near) return true
  const apart = sum(scaled(a.axis, a.rate), scaled(b.axis, -b.rate))
  return Math.hypot(...apart) * half < near
}
