import { expect, it } from 'vitest'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { symmetricEigen } from '../../../core/numerics/symmetric-eigen.ts'

/** Second differences: the eigenvalues are 2 − 2cos(kπ/(n+1)), the vectors sin(ikπ/(n+1)) (a discrete string). */
const secondDifferences = (n: number) =>
  Array.from({ length: n * n }, (_, i) => [2, -1][Math.abs((i % n) - Math.floor(i / n))] ?? 0)

it.each([1, 2, 3, 5, 8])('second differences of %i points have their known frequencies and shapes', n => {
  const { values, vectors } = symmetricEigen(secondDifferences(n), n)
  for (let k = 1; k <= n; k++) {
    expect(values[k - 1]).toBeCloseTo(2 - 2 * Math.cos((k * Math.PI) / (n + 1)), 12)
    const shape = Array.from({ length: n }, (_, i) => Math.sin(((i + 1) * k * Math.PI) / (n + 1)))
    const along = shape.reduce((sum, each, i) => sum + each * vectors[k - 1]![i]!, 0)
    expect(Math.abs(along) / Math.hypot(...shape)).toBeCloseTo(1, 12)
  }
})

it('the vectors of any symmetric matrix keep their direction, stand square on each other and have length 1', () => {
  const random = seededRandom(7)
  for (const n of [2, 3, 4, 6]) {
    const half = Array.from({ length: n * n }, () => 4 * random() - 2)
    const matrix = half.map((each, i) => each + half[(i % n) * n + Math.floor(i / n)]!)
    const { values, vectors } = symmetricEigen(matrix, n)
    expect(values).toEqual(values.toSorted((a, b) => a - b))
    vectors.forEach((vector, i) => {
      for (let row = 0; row < n; row++) {
        const image = vector.reduce((sum, each, k) => sum + matrix[row * n + k]! * each, 0)
        expect(image).toBeCloseTo(values[i]! * vector[row]!, 10)
      }
      vectors.forEach((other, j) => {
        const along = vector.reduce((sum, each, k) => sum + each * other[k]!, 0)
        expect(along).toBeCloseTo(i === j ? 1 : 0, 12)
      })
    })
  }
})

it('what is diagonal already comes back as it is, lowest first, and the given matrix is left alone', () => {
  const matrix = [5, 0, 0, 0, -1, 0, 0, 0, 2]
  const { values, vectors } = symmetricEigen(matrix, 3)
  expect(values).toEqual([-1, 2, 5])
  expect(vectors).toEqual([
    [0, 1, 0],
    [0, 0, 1],
    [1, 0, 0],
  ])
  expect(matrix).toEqual([5, 0, 0, 0, -1, 0, 0, 0, 2])
})
