import { describe, expect, it } from 'vitest'
import { commonSlope } from '../../../core/numerics/common-slope.ts'
import { linearLeastSquares } from '../../../core/numerics/linear-least-squares.ts'
import { straightLine } from '../../../core/numerics/straight-line.ts'

const close = (values: ArrayLike<number>, digits = 12) =>
  Array.from(values, value => expect.closeTo(value, digits))

/** Two laws for one line: sums about the mean (JCGM 100:2008, H.3.2) and QR of the whole design. */
describe('a weighted straight line and the general solver', () => {
  const x = [-3, 0.5, 1, 4, 9, 10]
  const y = [2, 1.5, -1, 0.25, -4, -3.5]
  const weights = [1, 4, 0.25, 9, 1, 2.25]
  const line = straightLine(x, y, weights)!
  const design = x.flatMap((v, i) => [Math.sqrt(weights[i]!), v * Math.sqrt(weights[i]!)])
  const general = linearLeastSquares(
    design,
    y.map((v, i) => v * Math.sqrt(weights[i]!)),
    2,
  )!
  it('agree in the line', () => {
    expect([line.intercept, line.slope]).toEqual(close(general.coefficients))
  })
  it('agree in variances, covariance and what is left', () => {
    const { varianceIntercept, varianceSlope, covariance } = line
    expect([varianceIntercept, covariance, covariance, varianceSlope]).toEqual(close(general.covariance))
    expect(line.weightedSumOfSquares).toBeCloseTo(general.sumOfSquares, 12)
  })
  it('leave what was given to them alone', () => {
    expect(x).toEqual([-3, 0.5, 1, 4, 9, 10])
    expect(design[1]).toBe(-3)
  })
})

describe('the general solver', () => {
  // By hand: of y = b·x the slope is Σxy/Σx² = 11/14, its variance 1/14, left Σy² − (Σxy)²/Σx² = 13 − 121/14.
  it('of one column is the projection on it', () => {
    const fit = linearLeastSquares([1, 2, 3], [2, 0, 3], 1)!
    expect([...fit.coefficients, ...fit.covariance, fit.sumOfSquares]).toEqual(
      close([11 / 14, 1 / 14, 13 - 121 / 14]),
    )
  })
  it('of as many rows as unknowns solves them, with nothing left', () => {
    // x = (1, −2, 3) put in; the inverse of XᵀX by hand from X⁻¹ of a triangle.
    const design = [2, 0, 0, 1, 1, 0, 0, 3, 1]
    const fit = linearLeastSquares(design, [2, -1, -3], 3)!
    expect([...fit.coefficients]).toEqual(close([1, -2, 3]))
    expect(fit.sumOfSquares).toBe(0)
    // X⁻¹ = [[1/2, 0, 0], [−1/2, 1, 0], [3/2, −3, 1]]; (XᵀX)⁻¹ = X⁻¹·X⁻ᵀ.
    expect([...fit.covariance]).toEqual(
      close([1 / 4, -1 / 4, 3 / 4, -1 / 4, 5 / 4, -15 / 4, 3 / 4, -15 / 4, 49 / 4]),
    )
  })
  it.each([
    [1e-9, true],
    [1e-15, false],
    [0, false],
  ])('two columns that differ by %d of their size: told apart is %s', (d, told) => {
    const design = [1, 1, 1, 1 + d, 1, 1]
    expect(linearLeastSquares(design, [1, 2, 4], 2) !== null).toBe(told)
    // The unit of a column says nothing.
    const inMilli = design.map((v, i) => (i % 2 === 0 ? v : 1000 * v))
    expect(linearLeastSquares(inMilli, [1, 2, 4], 2) !== null).toBe(told)
  })
  it('has no answer where a column is nothing, or no number', () => {
    expect(linearLeastSquares([0, 0, 0], [1, 2, 3], 1)).toBeNull()
    expect(linearLeastSquares([1, Number.NaN, 1], [1, 2, 3], 1)).toBeNull()
  })
})

describe('parallel lines', () => {
  const x = Float64Array.of(0, 1, 4, 2, 3, 9)
  const group = Int32Array.of(0, 0, 0, 1, 1, 2)
  // Made of slope −0.5 and offsets 1, 7 and 20, so that both come back whatever the weights.
  const y = x.map((v, k) => [1, 7, 20][group[k]!]! - 0.5 * v)
  it('come back from points that lie on them', () => {
    const line = commonSlope(x, y, Float64Array.of(1, 2, 3, 1, 5, 2), group, 3)!
    expect(line.slope).toBeCloseTo(-0.5, 12)
    expect([...line.offsets]).toEqual(close([1, 7, 20]))
    // By hand: group 0 has mean 14/6 and Σw(x − x̄)² = 50 − 196/6, group 1 mean 17/6 and 49 − 289/6; group 2 nothing.
    expect(line.spread).toBeCloseTo(50 - 196 / 6 + (49 - 289 / 6), 12)
  })
  it('a group whose points all have weight 0 has offset 0 and says nothing of the slope', () => {
    const weights = Float64Array.of(1, 2, 3, 0, 0, 2)
    const line = commonSlope(x, y, weights, group, 3)!
    expect([...line.offsets]).toEqual(close([1, 0, 20]))
    expect([...line.leverage.subarray(3)]).toEqual(close([0, 0, 0]))
    expect(line.spread).toBeCloseTo(50 - 196 / 6, 12)
  })
  it('have no slope where no group has two different x', () => {
    const alone = Int32Array.of(0, 1, 2, 3, 4, 5)
    expect(commonSlope(x, y, new Float64Array(6).fill(1), alone, 6)).toBeNull()
    expect(commonSlope(x, y, new Float64Array(6), group, 3)).toBeNull()
    expect(
      commonSlope(
        x.map(() => Number.NaN),
        y,
        new Float64Array(6).fill(1),
        group,
        3,
      ),
    ).toBeNull()
  })
})

it('a straight line through x that are no numbers is none', () => {
  expect(straightLine([Number.NaN, 1], [0, 1])).toBeNull()
  expect(straightLine([], [])).toBeNull()
})
