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
  const degreesOfFreedom = welchSatterthwaite(budget)
  return {
    standardUncertainty,
    degreesOfFreedom,
    halfWidth: studentT((1 + bandLevel) / 2, degreesOfFreedom) * standardUncertainty,
  }
}
