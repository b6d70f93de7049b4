/**
 * Eigenvalues, lowest first, and eigenvectors of a symmetric matrix, n·n numbers row after row;
 * `vectors[i]` belongs to `values[i]` and has length 1. By Jacobi's rotations: small matrices only.
 *
 * Source: Golub and Van Loan, Matrix Computations, 4th ed., 8.5.
 */
export function symmetricEigen(
  matrix: ArrayLike<number>,
  n: number,
): { values: number[]; vectors: number[][] } {
  const a = Float64Array.from(matrix)
  const v = new Float64Array(n * n)
  for (let i = 0; i < n; i++) v[i * n + i] = 1
  for (let sweep = 0; sweep < 30; sweep++) {
    let off = 0
    for (let p = 0; p < n; p++) for (let q = p + 1; q < n; q++) off += a[p * n + q]! ** 2
    if (off === 0) break
    for (let p = 0; p < n; p++) for (let q = p + 1; q < n; q++) rotate(a, v, n, p, q)
  }
  const order = Array.from({ length: n }, (_, i) => i).sort((i, j) => a[i * n + i]! - a[j * n + j]!)
  return {
    values: order.map(i => a[i * n + i]!),
    vectors: order.map(i => Array.from({ length: n }, (_, k) => v[k * n + i]!)),
  }
}

function rotate(a: Float64Array, v: Float64Array, n: number, p: number, q: number): void {
  const apq = a[p * n + q]!
  if (apq === 0) return
  const tau = (a[q * n + q]! - a[p * n + p]!) / (2 * apq)
  const t = Math.sign(tau || 1) / (Math.abs(tau) + Math.hypot(1, tau))
  const c = 1 / Math.hypot(1, t)
  const s = t * c
  for (let k = 0; k < n; k++) {
    const [akp, akq] = [a[k * n + p]!, a[k * n + q]!]
    a[k * n + p] = c * akp - s * akq
    a[k * n + q] = s * akp + c * akq
  }
  for (let k = 0; k < n; k++) {
    const [apk, aqk, vkp, vkq] = [a[p * n + k]!, a[q * n + k]!, v[k * n + p]!, v[k * n + q]!]
    a[p * n + k] = c * apk - s * aqk
    a[q * n + k] = s * apk + c * aqk
    v[k * n + p] = c * vkp - s * vkq
    v[k * n + q] = s * vkp + c * vkq
  }
}
