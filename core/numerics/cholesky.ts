/**
 * Factors a symmetric positive definite matrix in place: A = L·Lᵀ, L in the lower triangle.
 * Square matrices are Float64Arrays of n·n numbers, row after row. False when A is not positive
 * definite to working precision, or not finite: the problem behind it does not determine all its unknowns.
 *
 * Source: Golub and Van Loan, Matrix Computations, 4th ed., 4.2.
 */
export function choleskyFactor(a: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i * n + j]!
      for (let k = 0; k < j; k++) sum -= a[i * n + k]! * a[j * n + k]!
      if (i !== j) a[i * n + j] = sum / a[j * n + j]!
      else if (sum > 1e-14 * Math.abs(a[i * n + i]!)) a[i * n + i] = Math.sqrt(sum)
      else return false
    }
  }
  return true
}

/** Solves L·Lᵀ·x = b in place, L from `choleskyFactor`. */
export function choleskySolve(l: Float64Array, n: number, b: Float64Array): void {
  for (let i = 0; i < n; i++) {
    let sum = b[i]!
    for (let k = 0; k < i; k++) sum -= l[i * n + k]! * b[k]!
    b[i] = sum / l[i * n + i]!
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!
    for (let k = i + 1; k < n; k++) sum -= l[k * n + i]! * b[k]!
    b[i] = sum / l[i * n + i]!
  }
}

/** The inverse of L·Lᵀ, L from `choleskyFactor`. */
export function choleskyInverse(l: Float64Array, n: number): Float64Array {
  const inverse = new Float64Array(n * n)
  const column = new Float64Array(n)
  for (let j = 0; j < n; j++) {
    column.fill(0)
    column[j] = 1
    choleskySolve(l, n, column)
    for (let i = 0; i < n; i++) inverse[i * n + j] = column[i]!
  }
  return inverse
}
