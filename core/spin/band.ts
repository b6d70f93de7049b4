import { studentT } from '../numerics/student-t.ts'
import { welchSatterthwaite } from '../numerics/welch-satterthwaite.ts'
import type { Contribution } from './contribution.ts'

export type RateBand = {
  standardUncertainty: number
  degreesOfFreedom: number
  /** Half-width of the 95 % band: t(97.5 %, ν)·u. */
  halfWidth: number
}
export const bandLevel = 0.95

/** All contributions together: root of the sum of squares, band by Student's t (JCGM 100:2008, G.4). */
export function bandOf(budget: readonly Contribution[]): RateBand {
  const standardUncertainty = Math.hypot(...budget.map(line => line.standardUncertainty))
  const withScatter = budget.filter(line => line.withScatter)
  const others = budget.filter(line => !line.withScatter)
  const degreesOfFreedom = welchSatterthwaite(
    withScatter.length > 0 ? [...others, together(withScatter)] : others,
  )
  return {
    standardUncertainty,
    degreesOfFreedom,
    halfWidth: studentT((1 + bandLevel) / 2, degreesOfFreedom) * standardUncertainty,
  }
}

/**
 * Contributions that rest on one and the same estimate of a click error. The variance u² of each has the standard
 * deviation u²·√(2/ν), and these err as one: they add up as they are, √(2/ν)·Σu² = Σ√(2/νᵢ)·uᵢ².
 */
function together(parts: readonly Contribution[]): { standardUncertainty: number; degreesOfFreedom: number } {
  const variance = parts.reduce((sum, part) => sum + part.standardUncertainty ** 2, 0)
  const spread = parts.reduce(
    (sum, part) => sum + part.standardUncertainty ** 2 / Math.sqrt(part.degreesOfFreedom),
    0,
  )
  return {
    standardUncertainty: Math.sqrt(variance),
    degreesOfFreedom: spread > 0 ? (variance / spread) ** 2 : Number.POSITIVE_INFINITY,
  }
}
