import { weightedMean } from './weighted-mean.ts'

/**
 * Variance between the true values, after DerSimonian and Laird: the one step of moments with the weights
 * 1/u². 0 when the values agree better than their own uncertainties let expect.
 *
 * Source: R. DerSimonian and N. Laird, Controlled Clinical Trials 7 (1986) 177.
 *
 * @param variances the values' own, u²
 */
export function dersimonianLaird(values: readonly number[], variances: readonly number[]): number {
  const weights = variances.map(v => 1 / v)
  const sum = weights.reduce((total, w) => total + w, 0)
  const squares = weights.reduce((total, w) => total + w * w, 0)
  const { q } = weightedMean(values, weights)
  return Math.max(0, (q - (values.length - 1)) / (sum - squares / sum))
}

const steps = 100

/**
 * Variance between the true values, after Paule and Mandel: the τ² with which the values lie as far apart
 * as their uncertainties say, Σ (x − mean)²/(u² + τ²) = n − 1. The method of moments carried to its end:
 * preferred to the single step, which is too small where the spread is large or the uncertainties are
 * uneven (A. Veroniki et al., Research Synthesis Methods 7 (2016) 55).
 *
 * Newton's steps from the single step's answer; the sum falls and is convex in τ², so they cannot miss.
 * Source: R. Paule and J. Mandel, J. Res. Natl. Bur. Stand. 87 (1982) 377.
 */
export function pauleMandel(values: readonly number[], variances: readonly number[]): number {
  const expected = values.length - 1
  let tau2 = dersimonianLaird(values, variances)
  for (let step = 0; step < steps; step++) {
    const weights = variances.map(v => 1 / (v + tau2))
    const { mean, q } = weightedMean(values, weights)
    const slope = values.reduce((sum, x, i) => sum + (weights[i]! * (x - mean)) ** 2, 0)
    const next = Math.max(0, tau2 + (q - expected) / slope)
    if (Math.abs(next - tau2) <= 1e-12 * (next + variances[0]!)) return next
    tau2 = next
  }
  return tau2
}
