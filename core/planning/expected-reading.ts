import type { PlanSetUp } from '../contract/plan.ts'
import { flagSchema, type Reading } from '../contract/reading.ts'
import { readMarks } from '../spin/read-marks.ts'
import { imaginedHit } from './imagined-hit.ts'

export const halfWidthOf = ({ band }: Pick<Reading, 'band'>): number | null =>
  band && (band.highRpm - band.lowRpm) / 2

/**
 * What a reading of such a hit would be: of some imagined hits, read by the code that reads real ones, the one
 * whose band is in the middle of those with the commonest flag. So budget, ceiling and flag are those that a
 * real reading would have, and one unlucky hit does not speak for all.
 *
 * @param hits how many are imagined; a reading takes about 10 ms
 */
export function expectedReading(setUp: PlanSetUp, hits = 7): Reading {
  const readings = Array.from({ length: hits }, (_, i) => readMarks(imaginedHit(setUp, i + 1)))
  // Flags stand from best to worst: of two that are equally common the worse one speaks.
  const flagged = flagSchema.options
    .map(flag => readings.filter(reading => reading.flag === flag))
    .reduce((most, same) => (same.length >= most.length ? same : most))
  const width = (reading: Reading) => halfWidthOf(reading) ?? Number.POSITIVE_INFINITY
  return flagged.sort((a, b) => width(a) - width(b))[flagged.length >> 1]!
}
