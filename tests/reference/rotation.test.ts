import { createRequire } from 'node:module'
import { describe, expect, it } from 'vitest'
import { rotationFromVector } from '../../core/geometry/rotation.ts'
import { chanceOf } from '../bench/simulate/random.ts'

const { cv } = createRequire(import.meta.url)('opencv-wasm')

/** Reference: OpenCV's Rodrigues (the build in opencv-wasm 4.3), rotation vector to matrix. */
function rodrigues(w: readonly number[]): number[] {
  const vector = cv.matFromArray(3, 1, cv.CV_64F, [...w])
  const matrix = new cv.Mat()
  cv.Rodrigues(vector, matrix)
  const rows = Array.from(matrix.data64F as Float64Array)
  vector.delete()
  matrix.delete()
  return rows
}

describe('rotation from a vector, against OpenCV’s Rodrigues', () => {
  const chance = chanceOf(7)
  const drawn = Array.from({ length: 200 }, () => [1, 2, 3].map(() => chance.between(-4, 4)))
  const cases = [[1e-7, -2e-7, 3e-7], [Math.PI, 0, 0], [0, 0, 12.5], ...drawn]

  it('agrees to 1e-12 for small, half and many turns', () => {
    for (const w of cases) {
      const reference = rodrigues(w)
      rotationFromVector(w as [number, number, number]).forEach((x, i) => {
        expect(Math.abs(x - reference[i]!)).toBeLessThan(1e-12)
      })
    }
  })

  it('gives the published matrix of a third of a turn about (1, 1, 1): axes change places', () => {
    // Goldstein, Classical Mechanics, 3rd ed., 4.7 (rotation formula), with cos 120° = −1/2.
    const third = (2 * Math.PI) / 3 / Math.sqrt(3)
    const expected = [0, 0, 1, 1, 0, 0, 0, 1, 0]
    rotationFromVector([third, third, third]).forEach((x, i) => {
      expect(x).toBeCloseTo(expected[i]!, 12)
    })
  })
})
