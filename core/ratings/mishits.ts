import { median } from '../numerics/median.ts'
import { studentT } from '../numerics/student-t.ts'
import type { RatedHit } from './rated-hit.ts'

/** How the reason of a hit begins that was held back because the rule proposed it. */
export const mishitWords = 'Mishit by rule'

/** A hit that lies too far from its paddle's others to be one of them, proposed and never taken out unasked. */
export type ProposedMishit = { id: string; score: number; reason: string }

const least = 5
const limitOfMany = 3.5
/** Chance that honest hits of one paddle get any proposal. */
const falseProposal = 0.05
/** A median distance knows the scatter as well as a standard deviation does from this share of the hits. */
const efficiency = 0.37
/** For the normal law, the median distance from the median is this share of its standard deviation. */
const medianDistance = 0.6745

/**
 * The limit of the modified z-score: 3.5, and more for few hits, whose median distance says little of their
 * scatter. Then it is Student's t at Bonferroni's level, its degrees of freedom those that the median
 * distance is worth (P. Rousseeuw and C. Croux, J. Am. Stat. Assoc. 88 (1993) 1273: 37 %).
 */
const mishitLimit = (hits: number): number =>
  Math.max(limitOfMany, studentT(1 - falseProposal / (2 * hits), efficiency * (hits - 1)))

/**
 * Proposes hits whose modified z-score, 0.6745·(x − median)/(median distance from the median), lies beyond
 * `mishitLimit`. No proposal with fewer than five hits. The distance is never taken to be less than the readings'
 * own uncertainty: hits that happen to agree make no mishit of the next.
 *
 * Source: B. Iglewicz and D. Hoaglin, How to Detect and Handle Outliers, ASQC (1993); NIST/SEMATECH
 * e-Handbook 1.3.5.17.
 *
 * @param hits of one paddle in one set-up, all of them in its mean
 */
export function proposeMishits(
  hits: readonly Pick<RatedHit, 'id' | 'rpm' | 'standardUncertaintyRpm'>[],
): ProposedMishit[] {
  if (hits.length < least) return []
  const rpms = hits.map(hit => hit.rpm ?? Number.NaN)
  const middle = median(rpms)
  const scatter = median(rpms.map(rpm => Math.abs(rpm - middle))) / medianDistance
  const sd = Math.max(scatter, median(hits.map(hit => hit.standardUncertaintyRpm ?? 0)))
  const limit = mishitLimit(hits.length)
  return hits.flatMap(({ id }, i) => {
    const score = (rpms[i]! - middle) / sd
    if (!(Math.abs(score) > limit)) return []
    const side = score > 0 ? 'above' : 'below'
    const words = `modified z-score ${Math.abs(score).toFixed(1)} ${side} the median, limit ${limit.toFixed(1)}`
    return [{ id, score, reason: `${mishitWords} (${words}).` }]
  })
}
