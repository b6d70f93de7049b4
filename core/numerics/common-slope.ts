export type CommonSlope = {
  slope: number
  /** Of each group; 0 for one without weight. */
  offsets: Float64Array
  /** Σ w(x − x̄)², x̄ of the group: 1/variance of the slope when weights are 1/variance. */
  spread: number
  /** ∂slope/∂y of each point: w(x − x̄)/spread. */
  leverage: Float64Array
}

/**
 * Weighted least squares of y = offset(group) + slope·x: parallel straight lines, one a group. Null when
 * no group has two different x.
 *
 * The offsets are taken out by each group's weighted means: slope = Σ w(x − x̄)(y − ȳ) / Σ w(x − x̄)².
 * Source: JCGM 100:2008, H.3.2, with weights and groups (analysis of covariance).
 */
export function commonSlope(
  x: Float64Array,
  y: Float64Array,
  weights: Float64Array,
  group: Int32Array,
  groups: number,
): CommonSlope | null {
  const total = new Float64Array(groups)
  const meanX = new Float64Array(groups)
  const meanY = new Float64Array(groups)
  for (let k = 0; k < x.length; k++) {
    const g = group[k]!
    total[g]! += weights[k]!
    meanX[g]! += weights[k]! * x[k]!
    meanY[g]! += weights[k]! * y[k]!
  }
  for (let g = 0; g < groups; g++) {
    meanX[g]! /= total[g]! || 1
    meanY[g]! /= total[g]! || 1
  }
  const leverage = new Float64Array(x.length)
  let spread = 0
  let product = 0
  for (let k = 0; k < x.length; k++) {
    const dx = x[k]! - meanX[group[k]!]!
    leverage[k] = weights[k]! * dx
    spread += weights[k]! * dx * dx
    product += weights[k]! * dx * (y[k]! - meanY[group[k]!]!)
  }
  if (!(spread > 0)) return null
  const slope = product / spread
  for (let k = 0; k < x.length; k++) leverage[k]! /= spread
  return { slope, offsets: meanY.map((y, g) => y - slope * meanX[g]!), spread, leverage }
}
