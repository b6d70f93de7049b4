import { robustScale, robustWeight } from '../../numerics/robust-weight.ts'
import { pixelGridPx } from '../assumptions.ts'
import { type Noise, standardised } from './noise.ts'
import type { Sights } from './sights.ts'
import type { Misfit } from './state.ts'

/** What is thought of the errors before looking at residuals; degrees of freedom say how firmly. */
export type Expected = {
  clickPx: number
  clickDegreesOfFreedom: number
  tickSeconds: number
  /** Known part of each sighting's smear, points then directions. */
  smearSeconds: Float64Array
  /** Most that an exposure nobody knows can add to it; 0 where it is known. */
  openSmearSeconds: number
}

/** A click off by more than this many standard uncertainties (both coordinates) is doubted: 1 honest one in 460. */
export const doubtedFrom = 3.5
/** Shares of its most that an unknown smear is tried at. */
const smearShares = [0, 0.03, 0.06, 0.12, 0.25, 0.5, 1]

/** −2 ln of how likely a click error is beforehand (the scaled inverse χ² law of the source below). */
export const clickMisfortune = (
  clickPx: number,
  { clickPx: prior, clickDegreesOfFreedom: firmness }: Expected,
): number => firmness * ((prior / clickPx) ** 2 + 2 * Math.log(clickPx))

/** The errors before anything is seen of them. */
export const noiseBefore = ({ clickPx, tickSeconds, smearSeconds }: Expected): Noise => ({
  clickPx,
  tickSeconds,
  smearSeconds,
  openSmearSeconds: 0,
  weights: new Float64Array(smearSeconds.length).fill(1),
})

/**
 * What residuals teach of the errors: weights by the robust loss, then the click error, pooled from what
 * was expected and what is seen. Where the exposure is not known, the smear (which moves clicks along the
 * marks' ways in the picture alone) is averaged over all that it may be, each weighed by its likelihood.
 *
 * Source: Gelman et al., Bayesian Data Analysis, 3rd ed., 2.6 (variance with a scaled inverse χ² prior).
 */
export function learned(
  sights: Sights,
  misfit: Misfit,
  rate: number,
  before: Noise,
  redundancy: number,
  expected: Expected,
): Noise {
  const { clickPx: prior, clickDegreesOfFreedom: firmness, openSmearSeconds: open } = expected
  const rows = 2 * sights.points.length + sights.directions.length
  const { sizes } = standardised(sights, misfit, rate, { ...before, weights: before.weights.map(() => 1) })
  // Sizes of errors in two coordinates have the median √(2 ln 2) = 1.177 where one has 0.674.
  const scale = robustScale(sizes, 0) * (0.6745 / 1.1774)
  const pooled = Math.sqrt(
    (firmness * (prior / before.clickPx) ** 2 + rows * scale * scale) / (firmness + redundancy),
  )
  const weights = sizes.map(size => robustWeight(size, pooled, doubtedFrom))
  const withSmear = (openSmearSeconds: number) => {
    let noise = { ...before, weights, openSmearSeconds }
    let sums = standardised(sights, misfit, rate, noise)
    for (let round = 0; round < 20; round++) {
      const wanted = firmness * (prior / noise.clickPx) ** 2 + sums.sumOfSquares
      const factor = Math.sqrt(wanted / (firmness + redundancy))
      noise = { ...noise, clickPx: Math.max(noise.clickPx * factor, pixelGridPx) }
      sums = standardised(sights, misfit, rate, noise)
      if (Math.abs(factor - 1) < 1e-3) break
    }
    const misfortune =
      clickMisfortune(noise.clickPx, expected) + sums.sumOfSquares + (redundancy / rows) * sums.logVariances
    return { noise, misfortune }
  }
  if (open === 0) return withSmear(0).noise
  const tried = smearShares.map(share => withSmear(share * open))
  const least = Math.min(...tried.map(one => one.misfortune))
  let [total, square] = [0, 0]
  for (const { noise, misfortune } of tried) {
    const likelihood = Math.exp((least - misfortune) / 2)
    total += likelihood
    square += likelihood * noise.openSmearSeconds ** 2
  }
  return withSmear(Math.sqrt(square / total)).noise
}
