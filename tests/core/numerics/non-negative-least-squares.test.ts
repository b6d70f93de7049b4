import { expect, test } from 'vitest'
import { nonNegativeLeastSquares } from '../../../core/numerics/non-negative-least-squares.ts'

/** Normal matrix and right side of rows and what they should give. */
function normal(rows: readonly (readonly number[])[], y: readonly number[]) {
  const n = rows[0]!.length
  const a = Float64Array.from({ length: n * n }, (_, k) =>
    rows.reduce((sum, row) => sum + row[Math.floor(k / n)]! * row[k % n]!, 0),
  )
  const b = Float64Array.from({ length: n }, (_, i) => rows.reduce((sum, row, k) => sum + row[i]! * y[k]!, 0))
  return { a, b, n }
}
const rows = [
  [1, 0, 2],
  [0, 1, 1],
  [3, 1, 0],
  [1, 1, 1],
  [0, 2, 1],
]

test('gives back the unknowns that no limit touches', () => {
  const truth = [0.5, 2, 1.25]
  const y = rows.map(row => row.reduce((sum, value, i) => sum + value * truth[i]!, 0))
  const { a, b, n } = normal(rows, y)
  const x = nonNegativeLeastSquares(a, b, new Float64Array(n), 500)
  for (let i = 0; i < n; i++) expect(x[i]).toBeCloseTo(truth[i]!, 4)
})

test('leaves no unknown below 0, and none at 0 that the sum of squares wants above it', () => {
  // The conditions of Kuhn and Tucker: the slope is 0 where x > 0, and not negative where x = 0.
  const { a, b, n } = normal(rows, [1, -4, 3, -1, -6])
  const x = nonNegativeLeastSquares(a, b, new Float64Array(n).fill(1), 500)
  expect([...x].some(value => value === 0)).toBe(true)
  for (let i = 0; i < n; i++) {
    let slope = -b[i]!
    for (let j = 0; j < n; j++) slope += a[i * n + j]! * x[j]!
    expect(x[i]).toBeGreaterThanOrEqual(0)
    if (x[i]! > 0) expect(slope).toBeCloseTo(0, 4)
    else expect(slope).toBeGreaterThan(-1e-4)
  }
})
