import type { HitMarks } from '../../../../core/contract/bench.ts'
import type { Reading } from '../../../../core/contract/reading.ts'

/** Why a reading cannot be accepted as it stands, and what to do; null when it can. */
export function blockedWhy(reading: Reading | null, settled: HitMarks['settled']): string | null {
  if (!reading || reading.rpm === null || !reading.band) return 'There is no reading to accept yet.'
  if (reading.flag === 'ambiguous' && !settled)
    return 'Ambiguous: choose the rate that it was and say how you know, or hold it back.'
  return null
}
