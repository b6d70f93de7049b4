import type { PlanSetUp } from '../contract/plan.ts'
import type { Reading } from '../contract/reading.ts'
import { bandOfMean, type KnownMean } from '../ratings/known-mean.ts'
import { moreHitsFor } from '../ratings/more-hits.ts'

export type HitsForMean = { hits: number | null; reason: string }

/** Two hits are the fewest that tell how much a paddle's spin differs from hit to hit. */
const fewest = 2

/**
 * Hits of one paddle that give its mean a band as narrow as wanted, if every hit reads like `expected` and
 * the true spin differs from hit to hit by `betweenHitSdRpm`.
 */
export function hitsForMean(expected: Reading, setUp: PlanSetUp): HitsForMean {
  const part = (shared: boolean) =>
    Math.hypot(
      ...expected.budget
        .filter(line => line.sharedByHits === shared)
        .map(line => line.standardUncertaintyRpm),
    )
  if (expected.rpm === null) return { hits: null, reason: 'One hit gives no figure.' }
  const ofOne = Math.hypot(part(false), setUp.betweenHitSdRpm)
  const mean: KnownMean = {
    meanRpm: expected.rpm,
    own: { standardUncertaintyRpm: ofOne / Math.sqrt(fewest), degreesOfFreedom: fewest - 1 },
    shared: [{ source: 'camera', standardUncertaintyRpm: part(true) }],
  }
  const more = moreHitsFor({ ...mean, band: bandOfMean(mean), hits: fewest }, setUp.wantedHalfWidthRpm)
  if (more.hits !== null) return { hits: fewest + more.hits, reason: '' }
  if (more.reason === 'shared-part')
    return {
      hits: null,
      reason:
        'What all hits share (capture rate, readout) is wider than that by itself; calibrate the camera first.',
    }
  return { hits: null, reason: 'More than ten thousand.' }
}
