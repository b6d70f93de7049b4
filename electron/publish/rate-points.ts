import type { BandAtRate } from '../../core/picture/band-by-rate.ts'
import { expectedReading, halfWidthOf } from '../../core/planning/expected-reading.ts'
import { countingHalfWidth } from '../../core/planning/plan.ts'
import { usualSetUp } from '../../core/planning/usual-set-up.ts'

const rates = [60, 120, 240, 480, 960]

/** The band to expect of a hit at a rate, under the usual set-up of a plan filmed at other frame rates. */
export const ratePoints = (rpm: number): BandAtRate[] =>
  rates.map(captureFps => {
    const setUp = { ...usualSetUp, rpm, captureFps, senseKnown: true }
    return {
      captureFps,
      fittingHalfWidthRpm: halfWidthOf(expectedReading(setUp)),
      countingHalfWidthRpm: countingHalfWidth(setUp),
    }
  })
