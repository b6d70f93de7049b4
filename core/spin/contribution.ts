import { rpmOfRadPerSecond } from '../units/rate.ts'
import type { SightingFit } from './estimate.ts'

/** One contribution to the rate's uncertainty (JCGM 100:2008, clause 4). Rates in rad/s. */
export type Contribution = {
  source: string
  standardUncertainty: number
  degreesOfFreedom: number
  kind: 'random' | 'systematic'
  sharedByHits: boolean
  /** Its size follows the click error that the marks themselves gave: too small or too large together with all such. */
  withScatter?: boolean
}

export const random = (source: string, standardUncertainty: number): Contribution => ({
  source,
  standardUncertainty,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
  kind: 'random',
  sharedByHits: false,
})
export const systematic = (
  source: string,
  standardUncertainty: number,
  sharedByHits = false,
): Contribution => ({
  ...random(source, standardUncertainty),
  kind: 'systematic',
  sharedByHits,
})

export const sum = (fits: readonly SightingFit[], value: (fit: SightingFit, k: number) => number): number =>
  fits.reduce((total, fit, k) => total + value(fit, k), 0)

/** √Σ of squares over the sightings, for errors that each has on its own. */
export const rootSum = (fits: readonly SightingFit[], value: (fit: SightingFit) => number): number =>
  Math.sqrt(sum(fits, fit => value(fit) ** 2))

/** A contribution as the reading shows it. */
export const budgetLineOf = ({ source, standardUncertainty, kind, sharedByHits }: Contribution) => ({
  source,
  standardUncertaintyRpm: rpmOfRadPerSecond(standardUncertainty),
  kind,
  sharedByHits,
})
