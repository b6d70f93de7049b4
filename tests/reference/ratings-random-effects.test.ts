import { describe, expect, it } from 'vitest'
import { dersimonianLaird, pauleMandel } from '../../core/ratings/between-hit-variance.ts'
import { paddleFigure } from '../../core/ratings/paddle-figure.ts'
import { weightedMean } from '../../core/ratings/weighted-mean.ts'
import { hitsOf } from '../core/ratings/sample-hits.ts'

/**
 * The 13 BCG vaccine trials of Colditz et al., JAMA 271 (1994) 698: cases and others among the vaccinated,
 * cases and others among the rest. The counts are from memory; the heterogeneity below confirms them.
 */
const trials = [
  [4, 119, 11, 128],
  [6, 300, 29, 274],
  [3, 228, 11, 209],
  [62, 13536, 248, 12619],
  [33, 5036, 47, 5761],
  [180, 1361, 372, 1079],
  [8, 2537, 10, 619],
  [505, 87886, 499, 87892],
  [29, 7470, 45, 7232],
  [17, 1699, 65, 1600],
  [186, 50448, 141, 27197],
  [5, 2493, 3, 2338],
  [27, 16886, 29, 17825],
] as const
const logRiskRatios = trials.map(([a, b, c, d]) => Math.log(a / (a + b) / (c / (c + d))))
const variances = trials.map(([a, b, c, d]) => 1 / a - 1 / (a + b) + 1 / c - 1 / (c + d))

/** Figures as the R package metafor computes them for this data (values from memory, its own precision). */
describe('the random-effects mean of the 13 BCG trials', () => {
  const meanWith = (tau2: number) => {
    const weights = variances.map(v => 1 / (v + tau2))
    const standardError = 1 / Math.sqrt(weights.reduce((sum, w) => sum + w, 0))
    return { ...weightedMean(logRiskRatios, weights), standardError }
  }

  it('has the heterogeneity Q = 152.2330', () => {
    expect(meanWith(0).q).toBeCloseTo(152.233, 4)
  })

  it('after DerSimonian and Laird has τ² = 0.3088, mean −0.7141, standard error 0.1787', () => {
    const tau2 = dersimonianLaird(logRiskRatios, variances)
    expect(tau2).toBeCloseTo(0.3088, 4)
    expect(meanWith(tau2).mean).toBeCloseTo(-0.7141, 4)
    expect(meanWith(tau2).standardError).toBeCloseTo(0.1787, 4)
  })

  it('after Paule and Mandel has τ² = 0.3181, where Q is its 12 degrees of freedom', () => {
    const tau2 = pauleMandel(logRiskRatios, variances)
    expect(tau2).toBeCloseTo(0.3181, 4)
    expect(meanWith(tau2).q).toBeCloseTo(12, 9)
  })
})

/**
 * NIST/SEMATECH e-Handbook, 1.3.5.2, confidence limits for the mean (heat flow meter, 195 values): mean
 * 9.261460, standard deviation 0.022789, limits 9.258242 and 9.264679 (from memory). Any 195 values with
 * this mean and deviation have these limits; here half lies below and half above, one in the middle.
 */
it('even hits have the confidence limits of the e-Handbook’s heat flow meter', () => {
  const [n, mean, sd] = [195, 9.26146, 0.022789]
  const values = Array.from({ length: n }, (_, i) => mean + (i === 0 ? 0 : i % 2 ? sd : -sd))
  const { band } = paddleFigure(hitsOf(values, { standardUncertaintyRpm: 1e-6 })).figure!
  expect(band.lowRpm).toBeCloseTo(9.258242, 5)
  expect(band.highRpm).toBeCloseTo(9.264679, 5)
})

describe('the variance between hits', () => {
  it('is 0 where values agree better than their uncertainties let expect', () => {
    expect(dersimonianLaird([1, 1.1, 0.9], [4, 4, 4])).toBe(0)
    expect(pauleMandel([1, 1.1, 0.9], [4, 4, 4])).toBe(0)
  })

  it('is s² − u² for even uncertainties, by either way', () => {
    // 2 4 6 8: mean 5, sum of squares 20, s² = 20/3; with u² = 1 that leaves 17/3.
    for (const estimate of [dersimonianLaird, pauleMandel])
      expect(estimate([2, 4, 6, 8], [1, 1, 1, 1])).toBeCloseTo(17 / 3, 9)
  })
})
