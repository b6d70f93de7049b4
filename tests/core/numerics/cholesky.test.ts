import { expect, it } from 'vitest'
import { choleskyFactor, choleskyInverse, choleskySolve } from '../../../core/numerics/cholesky.ts'

/** A = L·Lᵀ of a factor that is known. */
const known = [
  [2, 0, 0, 0],
  [1, 3, 0, 0],
  [-1, 2, 0.5, 0],
  [4, -2, 1, 1.5],
]
const n = known.length
const product = Float64Array.from({ length: n * n }, (_, i) => {
  const [row, other] = [known[Math.floor(i / n)]!, known[i % n]!]
  return row.reduce((sum, each, k) => sum + each * other[k]!, 0)
})
const factored = () => {
  const l = product.slice()
  expect(choleskyFactor(l, n)).toBe(true)
  return l
}

it('recovers the factor that a matrix was made of', () => {
  const l = factored()
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) expect(l[i * n + j]).toBeCloseTo(known[i]![j]!, 12)
})

it('recovers the unknowns that a right side was made of', () => {
  const unknowns = [3, -1, 0.25, 2]
  const b = Float64Array.from({ length: n }, (_, i) =>
    unknowns.reduce((sum, x, k) => sum + product[i * n + k]! * x, 0),
  )
  choleskySolve(factored(), n, b)
  b.forEach((x, i) => {
    expect(x).toBeCloseTo(unknowns[i]!, 10)
  })
})

it('a matrix times its inverse is one, and the factor is left as it is', () => {
  const l = factored()
  const inverse = choleskyInverse(l, n)
  expect(l).toEqual(factored())
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      let sum = 0
      for (let k = 0; k < n; k++) sum += product[i * n + k]! * inverse[k * n + j]!
      expect(sum).toBeCloseTo(i === j ? 1 : 0, 9)
    }
})

// What is left of the last diagonal is 1 − 1 + d; beside rounding (2⁻⁵² = 2.2e-16) 1e-14 of it counts as nothing.
it.each([
  [1e-12, true],
  [2e-15, false],
  [0, false],
  [-1e-12, false],
])('two equal unknowns told apart by %d of their size: determined is %s', (d, determined) => {
  expect(choleskyFactor(Float64Array.of(1, 1, 1, 1 + d), 2)).toBe(determined)
  // The unit that a matrix is written in says nothing.
  expect(choleskyFactor(Float64Array.of(1e20, 1e20, 1e20, 1e20 * (1 + d)), 2)).toBe(determined)
  expect(choleskyFactor(Float64Array.of(1e-20, 1e-20, 1e-20, 1e-20 * (1 + d)), 2)).toBe(determined)
})

it('refuses what is no number or not finite, wherever it stands', () => {
  for (const odd of [Number.NaN, Number.POSITIVE_INFINITY])
    for (const place of [0, 2, 3]) {
      const a = Float64Array.of(2, 1, 1, 2)
      a[place] = odd
      expect(choleskyFactor(a, 2)).toBe(false)
    }
})
