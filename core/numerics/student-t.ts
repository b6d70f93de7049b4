import quantile from '@stdlib/stats-base-dists-t-quantile'

/**
 * Quantile of Student's t: the value that t stays below with the given probability.
 * Degrees of freedom need not be whole (Welch–Satterthwaite gives fractions); infinity is the normal.
 *
 * @example studentT(0.975, 10) // 2.228
 */
export function studentT(probability: number, degreesOfFreedom: number): number {
  // Beyond this the distribution is the normal one to 9 digits, and the library's series loses accuracy.
  return quantile(probability, Math.min(degreesOfFreedom, 1e8))
}
