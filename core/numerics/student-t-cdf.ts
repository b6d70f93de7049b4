import cdf from '@stdlib/stats-base-dists-t-cdf'

/**
 * Probability that Student's t stays at or below x. Degrees of freedom need not be whole; infinity is the
 * normal law.
 *
 * @example studentTCdf(2.228, 10) // 0.975
 */
export function studentTCdf(x: number, degreesOfFreedom: number): number {
  // As in `studentT`: beyond this the distribution is the normal one to 9 digits.
  return cdf(x, Math.min(degreesOfFreedom, 1e8))
}
