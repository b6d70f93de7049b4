import { studentT } from '../numerics/student-t.ts'
import { bandLevel } from '../spin/band.ts'
import { pauleMandel } from './between-hit-variance.ts'
import { weightedMean } from './weighted-mean.ts'

export type RandomEffectsMean = {
  mean: number
  /** Each value's share in the mean; they add up to 1. */
  shares: number[]
  /** Standard deviation between the true values. */
  betweenSd: number
  standardUncertainty: number
  degreesOfFreedom: number
}

/**
 * Random-effects mean of values with standard uncertainties. Each counts by 1/(u² + τ²), τ² after Paule and
 * Mandel; two count alike, for one difference cannot say how to weigh them. The mean's variance comes from
 * how far the values really lie apart (`weightedMean`), with as many degrees of freedom as that leaves.
 *
 * Its half-width is never less than the best that the uncertainties allow: a few values that happen to
 * agree do not make the camera better. So a band covers 95 % where values differ, as hits do, and more
 * where they truly do not.
 *
 * @param values at least two
 */
export function randomEffectsMean(
  values: readonly number[],
  uncertainties: readonly number[],
): RandomEffectsMean {
  const own = uncertainties.map(u => u ** 2)
  const tau2 = pauleMandel(values, own)
  const weights = values.length === 2 ? [1, 1] : own.map(v => 1 / (v + tau2))
  const { mean, shares, variance, degreesOfFreedom } = weightedMean(values, weights)
  const scatter = { standardUncertainty: Math.sqrt(variance), degreesOfFreedom }
  const best = {
    standardUncertainty: Math.sqrt(1 / own.reduce((sum, v) => sum + 1 / v, 0)),
    degreesOfFreedom: Number.POSITIVE_INFINITY,
  }
  const wider = halfWidth(scatter) > halfWidth(best) ? scatter : best
  return { mean, shares, betweenSd: Math.sqrt(tau2), ...wider }
}

type Part = { standardUncertainty: number; degreesOfFreedom: number }
const halfWidth = ({ standardUncertainty, degreesOfFreedom }: Part) =>
  studentT((1 + bandLevel) / 2, degreesOfFreedom) * standardUncertainty
