export type LinearFit = {
  coefficients: Float64Array
  /** (XᵀX)⁻¹, p × p, row after row: the covariance when the rows were divided by their uncertainties. */
  covariance: Float64Array
  sumOfSquares: number
}

/**
 * Linear least squares by Householder QR, for any design: minimises |y − X·coefficients|². Null when the
 * columns of X depend on each other to working precision.
 *
 * `design` holds X row after row, y.length rows of p numbers. For weights, multiply row and y by √weight.
 * QR works on X itself and keeps twice the digits that normal equations keep.
 *
 * Source: Golub and Van Loan, Matrix Computations, 4th ed., 5.3.2.
 */
export function linearLeastSquares(
  design: ArrayLike<number>,
  y: ArrayLike<number>,
  p: number,
): LinearFit | null {
  const n = y.length
  const a = Float64Array.from(design)
  const b = Float64Array.from(y)
  const diagonal = new Float64Array(p)
  for (let k = 0; k < p; k++) {
    let columnNorm = 0
    for (let i = 0; i < n; i++) columnNorm += a[i * p + k]! ** 2
    let norm = 0
    for (let i = k; i < n; i++) norm = Math.hypot(norm, a[i * p + k]!)
    // A column that the ones before it explain leaves nothing but rounding.
    if (!(norm > 1e-13 * Math.sqrt(columnNorm))) return null
    if (a[k * p + k]! > 0) norm = -norm
    diagonal[k] = norm
    a[k * p + k]! -= norm
    for (let j = k + 1; j <= p; j++) {
      let sum = 0
      for (let i = k; i < n; i++) sum += a[i * p + k]! * (j < p ? a[i * p + j]! : b[i]!)
      sum /= norm * a[k * p + k]!
      for (let i = k; i < n; i++) {
        if (j < p) a[i * p + j]! += sum * a[i * p + k]!
        else b[i]! += sum * a[i * p + k]!
      }
    }
  }
  const inverseR = new Float64Array(p * p)
  for (let j = 0; j < p; j++) {
    inverseR[j * p + j] = 1 / diagonal[j]!
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0
      for (let k = i + 1; k <= j; k++) sum -= a[i * p + k]! * inverseR[k * p + j]!
      inverseR[i * p + j] = sum / diagonal[i]!
    }
  }
  const coefficients = new Float64Array(p)
  const covariance = new Float64Array(p * p)
  for (let i = 0; i < p; i++) {
    for (let k = i; k < p; k++) coefficients[i]! += inverseR[i * p + k]! * b[k]!
    for (let j = 0; j < p; j++) {
      for (let k = Math.max(i, j); k < p; k++) {
        covariance[i * p + j]! += inverseR[i * p + k]! * inverseR[j * p + k]!
      }
    }
  }
  let sumOfSquares = 0
  for (let i = p; i < n; i++) sumOfSquares += b[i]! ** 2
  return { coefficients, covariance, sumOfSquares }
}
