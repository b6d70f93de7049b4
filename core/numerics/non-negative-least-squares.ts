/**
 * The x ≥ 0 that minimises xᵀ·A·x / 2 − bᵀ·x: least squares whose unknowns cannot be negative, from the normal
 * matrix A = XᵀX (n × n, row after row, symmetric, diagonal above 0) and b = Xᵀy. One unknown after the other is put
 * to its best with the others held, until none moves by more than 1e-6 of the largest, or for `rounds`: each
 * step lowers the sum of squares, so what comes out is never worse than `start`.
 *
 * Right where a coarse answer will do; unknowns that depend on each other are approached slowly.
 *
 * Source: Franc, Hlaváč and Navara, Sequential coordinate-wise algorithm for the non-negative least squares
 * problem, CAIP 2005, LNCS 3691, p. 407 (from memory).
 */
export function nonNegativeLeastSquares(
  a: Float64Array,
  b: Float64Array,
  start: Float64Array,
  rounds = 60,
): Float64Array {
  const n = b.length
  const x = Float64Array.from(start)
  for (let round = 0; round < rounds; round++) {
    let [moved, largest] = [0, 0]
    for (let i = 0; i < n; i++) {
      let pull = b[i]!
      for (let j = 0; j < n; j++) pull -= a[i * n + j]! * x[j]!
      const next = Math.max(0, x[i]! + pull / a[i * n + i]!)
      moved = Math.max(moved, Math.abs(next - x[i]!))
      largest = Math.max(largest, next)
      x[i] = next
    }
    if (moved <= 1e-6 * largest) break
  }
  return x
}
