import { describe, expect, it } from 'vitest'
import { choleskyFactor, choleskyInverse, choleskySolve } from '../../../core/numerics/cholesky.ts'
import { commonSlope } from '../../../core/numerics/common-slope.ts'
import { levenbergMarquardt } from '../../../core/numerics/levenberg-marquardt.ts'
import { linearLeastSquares } from '../../../core/numerics/linear-least-squares.ts'
import { straightLine } from '../../../core/numerics/straight-line.ts'

describe('Cholesky', () => {
  // Golub and Van Loan, Matrix Computations, 4th ed., example of 4.2: [[2, −2], [−2, 5]] = L·Lᵀ, L = [[√2, 0], [−√2, √3]].
  it('factors the book’s example', () => {
    const a = Float64Array.of(2, -2, -2, 5)
    expect(choleskyFactor(a, 2)).toBe(true)
    expect([a[0], a[2], a[3]].map(v => v!.toFixed(12))).toEqual(
      [Math.SQRT2, -Math.SQRT2, Math.sqrt(3)].map(v => v.toFixed(12)),
    )
    const x = Float64Array.of(0, 3)
    choleskySolve(a, 2, x)
    expect([...x].map(v => Number(v.toFixed(12)))).toEqual([1, 1])
    expect([...choleskyInverse(a, 2)].map(v => Number((6 * v).toFixed(12)))).toEqual([5, 2, 2, 2])
  })
  it('refuses a matrix whose unknowns depend on each other', () => {
    expect(choleskyFactor(Float64Array.of(1, 1, 1, 1), 2)).toBe(false)
    expect(choleskyFactor(Float64Array.of(Number.NaN, 0, 0, 1), 2)).toBe(false)
  })
})

describe('straight lines', () => {
  it('need two different x', () => {
    expect(straightLine([1, 1], [2, 3])).toBeNull()
    expect(linearLeastSquares([1, 1, 1, 1], [2, 3], 2)).toBeNull()
  })
  it('a point with weight 3 counts as three points', () => {
    const weighted = straightLine([0, 1, 3], [1, 2, 7], [1, 3, 1])!
    const repeated = straightLine([0, 1, 1, 1, 3], [1, 2, 2, 2, 7])!
    expect(weighted.slope).toBeCloseTo(repeated.slope, 12)
    expect(weighted.varianceSlope).toBeCloseTo(repeated.varianceSlope, 12)
  })
  it('one slope for two groups agrees with the general solver', () => {
    const x = Float64Array.of(0, 1, 2, 5, 6, 8)
    const y = Float64Array.of(1, 2.1, 2.8, 12, 13.3, 14.9)
    const group = Int32Array.of(0, 0, 0, 1, 1, 1)
    const weights = Float64Array.of(1, 2, 1, 3, 1, 2)
    const design = [...x].flatMap((v, k) => {
      const w = Math.sqrt(weights[k]!)
      return [w * v, group[k] === 0 ? w : 0, group[k] === 1 ? w : 0]
    })
    const general = linearLeastSquares(
      design,
      [...y].map((v, k) => v * Math.sqrt(weights[k]!)),
      3,
    )!
    const line = commonSlope(x, y, weights, group, 2)!
    expect(line.slope).toBeCloseTo(general.coefficients[0]!, 12)
    expect(line.offsets[1]).toBeCloseTo(general.coefficients[2]!, 12)
    expect(1 / line.spread).toBeCloseTo(general.covariance[0]!, 12)
    // ∂slope/∂y by moving one y.
    const moved = commonSlope(
      x,
      Float64Array.from(y, (v, k) => v + (k === 4 ? 1 : 0)),
      weights,
      group,
      2,
    )!
    expect(moved.slope - line.slope).toBeCloseTo(line.leverage[4]!, 12)
  })
})

describe('Levenberg–Marquardt', () => {
  it('solves a linear problem with the covariance of the general solver', () => {
    const x = [0, 1, 2, 3]
    const y = [1, 2.2, 2.8, 4.1]
    const fit = levenbergMarquardt(
      (p, residuals, jacobian) =>
        x.forEach((v, i) => {
          residuals[i] = p[0]! + p[1]! * v - y[i]!
          jacobian.set([1, v], 2 * i)
        }),
      [0, 0],
      4,
    )
    const line = straightLine(x, y)!
    expect(fit.parameters[1]).toBeCloseTo(line.slope, 10)
    expect(fit.covariance![3]).toBeCloseTo(line.varianceSlope, 10)
    expect(fit.covariance![1]).toBeCloseTo(line.covariance, 10)
  })
  // Moré, Garbow and Hillstrom, ACM Trans. Math. Software 7 (1981) 17, problem 1: Rosenbrock from (−1.2, 1).
  it('goes down Rosenbrock’s valley to (1, 1)', () => {
    const fit = levenbergMarquardt(
      ([x, y], residuals, jacobian) => {
        residuals.set([10 * (y! - x! * x!), 1 - x!])
        jacobian.set([-20 * x!, 10, -1, 0])
      },
      [-1.2, 1],
      2,
    )
    expect(fit.converged).toBe(true)
    expect([...fit.parameters].map(v => v.toFixed(9))).toEqual(['1.000000000', '1.000000000'])
  })
  it('says that a parameter nothing depends on has no covariance', () => {
    const fit = levenbergMarquardt(
      ([x], residuals, jacobian) => {
        residuals.set([x! - 2, x! - 4])
        jacobian.set([1, 0, 1, 0])
      },
      [0, 5],
      2,
    )
    expect(fit.parameters[0]).toBeCloseTo(3, 9)
    expect(fit.covariance).toBeNull()
  })
})
