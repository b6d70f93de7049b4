export type WeightedMean = {
  mean: number
  /** Each value's share in the mean; they add up to 1. */
  shares: number[]
  /** Σ w·(x − mean)²: how far the values lie apart by these weights. */
  q: number
  /** Variance of the mean, from how far the values really lie apart. */
  variance: number
  /** Of that variance; values − 1 for even weights, fewer where few values carry the mean. */
  degreesOfFreedom: number
}

/**
 * Mean by weights, with a variance that does not lean on the weights being right: the squared distances
 * themselves, each made larger by what its own share takes away from it. Expected to be 1/Σw where the
 * weights are the inverse variances; s²/n with n − 1 degrees of freedom where they are even.
 *
 * Source: the bias-reduced linearization estimator (CR2) with Satterthwaite degrees of freedom, for a
 * lone intercept; J. Pustejovsky and E. Tipton, J. Bus. Econ. Stat. 36 (2018) 672 (from memory).
 *
 * @param values at least two
 * @example weightedMean([1, 2, 3, 4], [1, 1, 1, 1]).variance // 5/3 / 4
 */
export function weightedMean(values: readonly number[], weights: readonly number[]): WeightedMean {
  const total = weights.reduce((sum, w) => sum + w, 0)
  const shares = weights.map(w => w / total)
  const mean = values.reduce((sum, x, i) => sum + shares[i]! * x, 0)
  let q = 0
  let variance = 0
  let [sharesSquared, lifts, liftsSquared] = [0, 0, 0]
  for (const [i, x] of values.entries()) {
    const lift = shares[i]! ** 2 / (1 - shares[i]!)
    q += weights[i]! * (x - mean) ** 2
    variance += lift * (x - mean) ** 2
    sharesSquared += shares[i]! ** 2
    lifts += lift
    liftsSquared += lift ** 2
  }
  return { mean, shares, q, variance, degreesOfFreedom: 1 / (sharesSquared + lifts ** 2 - liftsSquared) }
}
