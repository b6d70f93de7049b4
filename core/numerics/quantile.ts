/**
 * Quantile between the order statistics by a straight line: the smallest value at 0, the largest at 1, the
 * k-th of n at (k − 1)/(n − 1). The counterpart of a percentile as the share of the others strictly below.
 *
 * Source: definition 7 of R. Hyndman and Y. Fan, The American Statistician 50 (1996) 361.
 *
 * @param values at least one, in any order
 * @example quantile([1, 2, 3, 4], 0.5) // 2.5
 */
export function quantile(values: ArrayLike<number>, probability: number): number {
  const sorted = Float64Array.from(values).sort()
  const place = probability * (sorted.length - 1)
  const below = Math.floor(place)
  const low = sorted[below]!
  return low + (place - below) * ((sorted[below + 1] ?? low) - low)
}
