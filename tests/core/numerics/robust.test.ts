import { describe, expect, it } from 'vitest'
import { chiSquareQuantile } from '../../../core/numerics/chi-square.ts'
import { parabolaPeak } from '../../../core/numerics/parabola-peak.ts'
import { randomStudentT } from '../../../core/numerics/random-student-t.ts'
import { robustScale, robustWeight } from '../../../core/numerics/robust-weight.ts'
import { decimalsForShow, roundForShow } from '../../../core/numerics/round-for-show.ts'
import { studentT } from '../../../core/numerics/student-t.ts'
import { studentTCdf } from '../../../core/numerics/student-t-cdf.ts'
import { wrapAngle } from '../../../core/numerics/wrap-angle.ts'

describe('robust weights', () => {
  it('know a residual by its size in units of the scale, whatever its sign', () => {
    for (const size of [0.5, 2, 3.5, 6, 11])
      for (const scale of [0.01, 1, 40])
        for (const sign of [-1, 1])
          expect(robustWeight(sign * size * scale, scale, 3)).toBeCloseTo(robustWeight(size, 1, 3), 12)
  })
  // Hampel's pull (weight times size) for corner 1: size; 1; (4 − size)/2; 0.
  it('pull as Hampel’s three parts say', () => {
    const pull = (size: number) => size * robustWeight(size, 1, 1)
    expect([0.3, 1, 1.5, 2, 2.5, 3, 3.9, 4, 4.1, 90].map(pull)).toEqual(
      [0.3, 1, 1, 1, 0.75, 0.5, 0.05, 0, 0, 0].map(each => expect.closeTo(each, 12)),
    )
  })
})

/** 1/Φ⁻¹(3/4) = 1/0.674490 (NIST/SEMATECH e-Handbook, 1.3.6.7.1) = 1.4826. */
describe('the scale by the median of sizes', () => {
  it('is 1.4826 times it, signs and order aside', () => {
    expect(robustScale([-5, 1, -2, 4, 3], 0)).toBeCloseTo(3 / 0.67449, 3)
  })
  it('leaves out as many of the smallest as the fit took parameters', () => {
    expect(robustScale([-5, 0, 0, 4, 3], 2)).toBeCloseTo(4 / 0.67449, 3)
    // One more residual than parameters: the largest alone speaks.
    expect(robustScale([0, 0, 0, 0.1, -7], 4)).toBeCloseTo(7 / 0.67449, 3)
  })
  it('takes them all where the fit took as many parameters as there are', () => {
    expect(robustScale([-5, 1, -2, 4, 3], 5)).toBeCloseTo(3 / 0.67449, 3)
    expect(robustScale([-5, 1, -2, 4, 3], 6)).toBeCloseTo(3 / 0.67449, 3)
  })
})

/** The polar way worked out by hand for ν = 2, where √(2(u⁻¹ − 1)), and for the normal limit, √(−2 ln u). */
describe('a draw from Student’s t', () => {
  const given = (...numbers: number[]) => {
    const left = numbers.slice()
    return () => left.shift()!
  }
  it.each([
    [2, 0.5, 0, Math.SQRT2],
    [2, 0.75, 0.5, -Math.sqrt(6)],
    [2, 0.75, 0.125, Math.sqrt(3)],
    [Number.POSITIVE_INFINITY, 1 - Math.exp(-2), 0, 2],
    [Number.POSITIVE_INFINITY, 1 - Math.exp(-0.5), 0.5, -1],
    [4, 0, 0.3, 0],
  ])('ν = %d, 1 − u = %d, v = %d', (dof, first, second, draw) => {
    expect(randomStudentT(given(first, second), dof)).toBeCloseTo(draw, 12)
  })
})

describe('Student’s t', () => {
  it.each([0.5, 1, 3.7, 30, 1e9, Number.POSITIVE_INFINITY])(
    'probability and quantile undo each other, ν = %d',
    dof => {
      for (const p of [0.01, 0.3, 0.5, 0.975]) expect(studentTCdf(studentT(p, dof), dof)).toBeCloseTo(p, 9)
    },
  )
  // ν = 1 is Cauchy's law: 1/2 + atan(x)/π. The normal law at 1.959964: 0.975 (NIST/SEMATECH e-Handbook, 1.3.6.7.1).
  it('is Cauchy’s law for ν = 1 and the normal law without end', () => {
    for (const x of [-3, 0.2, 8]) expect(studentTCdf(x, 1)).toBeCloseTo(0.5 + Math.atan(x) / Math.PI, 9)
    expect(studentTCdf(1.959964, Number.POSITIVE_INFINITY)).toBeCloseTo(0.975, 7)
  })
})

// The cube may not turn a far lower quantile of few degrees of freedom negative: χ² is a sum of squares.
it('χ² is never below nothing', () => {
  expect(chiSquareQuantile(-5, 1)).toBe(0)
})

it('a parabola that opens upwards has no peak', () => {
  expect([parabolaPeak(2, 0, 1), parabolaPeak(1, 1, 1)]).toEqual([0, 0])
})

it('an angle half a period away stays there, on either side', () => {
  expect([wrapAngle(1, 2), wrapAngle(-1, 2)].map(Math.abs)).toEqual([1, 1])
  expect([wrapAngle(0.3), wrapAngle(-7, 3), wrapAngle(7, 3)]).toEqual(
    [0.3, -1, 1].map(each => expect.closeTo(each, 12)),
  )
})

describe('rounding for show', () => {
  // The same three digits, wherever the point stands: Review of Particle Physics, 5.3.
  it.each([-6, -1, 0, 3])('354 keeps two digits and 355 one, times ten to the %i', power => {
    expect(decimalsForShow(354 * 10 ** power)).toBe(-1 - power)
    expect(decimalsForShow(355 * 10 ** power)).toBe(-2 - power)
  })
  it('tens and hundreds stay whole numbers, thousandths the nearest that can be written', () => {
    expect(roundForShow(2345.6, 3544)).toEqual({ value: 2300, uncertainty: 3500, decimals: -2 })
    expect(roundForShow(-0.0123456, 0.00012)).toEqual({ value: -0.01235, uncertainty: 0.00012, decimals: 5 })
    expect(roundForShow(17.4, 3.6)).toEqual({ value: 17, uncertainty: 4, decimals: 0 })
  })
  it('an uncertainty that is negative has no decimals', () => {
    expect(decimalsForShow(-3)).toBe(0)
  })
})
