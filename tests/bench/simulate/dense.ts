/** Lower factor of a symmetric positive definite matrix, rows one after another; null when it is not. */
export function choleskyOf(matrix: Float64Array, n: number): Float64Array | null {
  const l = Float64Array.from(matrix)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = l[i * n + j]!
      for (let k = 0; k < j; k++) sum -= l[i * n + k]! * l[j * n + k]!
      if (i === j && !(sum > 0)) return null
      l[i * n + j] = i === j ? Math.sqrt(sum) : sum / l[j * n + j]!
    }
  }
  return l
}

/** L⁻¹·column. */
export function solvedBelow(l: Float64Array, column: readonly number[]): number[] {
  const n = column.length
  const x = [...column]
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= l[i * n + k]! * x[k]!
    x[i]! /= l[i * n + i]!
  }
  return x
}

/** Inverse by Gauss and Jordan with the largest pivot, after scaling the diagonal to 1; null when singular. */
export function inverseOf(matrix: readonly number[], n: number): number[] | null {
  const scale = Array.from({ length: n }, (_, i) => 1 / Math.sqrt(matrix[i * n + i]!))
  const a = Array.from({ length: n }, (_, i) => [
    ...Array.from({ length: n }, (_, k) => matrix[i * n + k]! * scale[i]! * scale[k]!),
    ...Array.from({ length: n }, (_, k) => (i === k ? 1 : 0)),
  ])
  for (let i = 0; i < n; i++) {
    const pivot = a
      .slice(i)
      .reduce((best, row, k) => (Math.abs(row[i]!) > Math.abs(a[best]![i]!) ? i + k : best), i)
    ;[a[i], a[pivot]] = [a[pivot]!, a[i]!]
    const lead = a[i]![i]!
    if (!(Math.abs(lead) > 1e-12)) return null
    a[i] = a[i]!.map(x => x / lead)
    a.forEach((row, k) => {
      if (k === i || row[i] === 0) return
      const by = row[i]!
      a[k] = row.map((x, c) => x - by * a[i]![c]!)
    })
  }
  return a.flatMap((row, i) => row.slice(n).map((x, k) => x * scale[i]! * scale[k]!))
}
