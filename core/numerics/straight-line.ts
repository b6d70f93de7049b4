export type StraightLine = {
  intercept: number
  slope: number
  /** Covariance for weights that are 1/variance; times the scatter's variance where weights are relative. */
  varianceIntercept: number
  varianceSlope: number
  covariance: number
  /** Σ weight·(y − intercept − slope·x)². */
  weightedSumOfSquares: number
}

/**
 * Weighted least squares of y = intercept + slope·x, or null when fewer than two x differ.
 *
 * Right when errors are in y alone and independent. Sums run about the weighted mean of x, which keeps
 * the digits that the textbook sums lose.
 *
 * Source: JCGM 100:2008, H.3.2, equations (H.13a) to (H.13d), with weights.
 *
 * @example straightLine([0, 1, 2], [1, 3, 5]).slope // 2
 */
export function straightLine(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  weights?: ArrayLike<number>,
): StraightLine | null {
  const n = x.length
  const weight = (i: number) => weights?.[i] ?? 1
  let total = 0
  let meanX = 0
  let meanY = 0
  for (let i = 0; i < n; i++) {
    total += weight(i)
    meanX += weight(i) * x[i]!
    meanY += weight(i) * y[i]!
  }
  meanX /= total
  meanY /= total
  let xx = 0
  let xy = 0
  for (let i = 0; i < n; i++) {
    const dx = x[i]! - meanX
    xx += weight(i) * dx * dx
    xy += weight(i) * dx * (y[i]! - meanY)
  }
  if (!(xx > 0)) return null
  const slope = xy / xx
  const intercept = meanY - slope * meanX
  let weightedSumOfSquares = 0
  for (let i = 0; i < n; i++)
    weightedSumOfSquares += weight(i) * (y[i]! - meanY - slope * (x[i]! - meanX)) ** 2
  return {
    intercept,
    slope,
    varianceIntercept: 1 / total + meanX ** 2 / xx,
    varianceSlope: 1 / xx,
    covariance: -meanX / xx,
    weightedSumOfSquares,
  }
}
