import { describe, expect, it } from 'vitest'
import { fitBearing } from '../../core/spin/bearing.ts'
import type { Estimate } from '../../core/spin/estimate.ts'
import { observationsOf } from '../../core/spin/observations-of.ts'
import { rpmOfRadPerSecond } from '../../core/units/rate.ts'
import { marksOf } from '../core/spin/truth.ts'

/**
 * Least variance of a rate from N even frames with bearing error σ: σ·√(12/(N(N²−1))) per frame; times f/6
 * in rpm for σ in degrees. Source: Rife and Boorstyn, IEEE Trans. Inf. Theory 20 (1974) 591, phase known
 * but for its offset. Figures: 3° at 240 fps.
 */
const radiusPx = 40
const clickPx = (radiusPx * 3 * Math.PI) / 180
const fitOf = (frames: number, seed: number): Estimate => {
  const marks = marksOf({ kind: 'direction', frames, seed, clickPx, radiusPx, statedClickPx: clickPx })
  const observed = observationsOf(marks)
  if (!('observations' in observed)) throw new Error(observed.reason)
  const fit = fitBearing(observed.observations)
  if (!fit.measured) throw new Error(fit.reason)
  return fit
}

describe('the least variance that a rate can have', () => {
  it.each([
    [6, 28.685],
    [12, 10.035],
    [24, 3.539],
  ])(
    'N = %i: %d rpm by the closed form, by the fit’s own reckoning, and by 400 simulated hits',
    (frames, rpm) => {
      expect(3 * Math.sqrt(12 / (frames * (frames ** 2 - 1))) * (240 / 6)).toBeCloseTo(rpm, 3)
      const one = fitOf(frames, 1)
      const perPx = one.scatterUncertaintyRadPerSecond / one.scatter.px
      expect(rpmOfRadPerSecond(perPx * clickPx)).toBeCloseTo(rpm, 2)
      let squares = 0
      const hits = 400
      for (let seed = 1; seed <= hits; seed++)
        squares += (rpmOfRadPerSecond(fitOf(frames, seed).rateRadPerSecond) - 2330) ** 2
      const ratio = Math.sqrt(squares / hits) / rpm
      // A root mean square of 400 is known to 1/√800 = 3.5 %; method: within 1.10 of the bound.
      expect(ratio).toBeGreaterThan(0.9)
      expect(ratio).toBeLessThan(1.1)
    },
  )
})
