import { describe, expect, it } from 'vitest'
import { chiSquareQuantile } from '../../../core/numerics/chi-square.ts'
import { median } from '../../../core/numerics/median.ts'
import { parabolaPeak } from '../../../core/numerics/parabola-peak.ts'
import { robustScale, robustWeight } from '../../../core/numerics/robust-weight.ts'
import { decimalsForShow } from '../../../core/numerics/round-for-show.ts'
import { welchSatterthwaite } from '../../../core/numerics/welch-satterthwaite.ts'
import { wrapAngle } from '../../../core/numerics/wrap-angle.ts'
import { chanceOf } from '../../bench/simulate/random.ts'

describe('small statistics', () => {
  it('medians of odd and even counts, and of nothing', () => {
    expect([median([3, 1, 2]), median([4, 1, 2, 3]), median([])]).toEqual([2, 2.5, Number.NaN])
  })
  // NIST/SEMATECH e-Handbook, 1.3.6.7.4, critical values of χ².
  it.each([
    [2.326, 2, 9.21],
    [2.326, 10, 23.209],
    [2.326, 30, 50.892],
    [-2.326, 10, 2.558],
    [-2.326, 30, 14.953],
  ])('χ² at z = %d and ν = %i is %d within 3 %%', (z, dof, table) => {
    expect(Math.abs(chiSquareQuantile(z, dof) / table - 1)).toBeLessThan(0.03)
  })
  it('one part with ν = 4 has ν = 4; a part known without doubt adds to it', () => {
    const doubtful = { standardUncertainty: 3, degreesOfFreedom: 4 }
    const certain = { standardUncertainty: 4, degreesOfFreedom: Number.POSITIVE_INFINITY }
    expect(welchSatterthwaite([doubtful])).toBe(4)
    // (9 + 16)² / (81/4)
    expect(welchSatterthwaite([doubtful, certain])).toBeCloseTo(625 / 20.25, 9)
    expect(welchSatterthwaite([certain])).toBe(Number.POSITIVE_INFINITY)
    expect(welchSatterthwaite([])).toBe(Number.POSITIVE_INFINITY)
  })
  it('the scale of a thousand normal numbers is their standard deviation, outliers or not', () => {
    const { normal } = chanceOf(4)
    const values = Array.from({ length: 1000 }, () => normal(2))
    expect(robustScale(values, 1)).toBeCloseTo(2, 0)
    const spoiled = values.map((v, i) => (i < 100 ? 500 : v))
    expect(Math.abs(robustScale(spoiled, 1) - 2)).toBeLessThan(0.4)
  })
  it('weights are 1 up to the corner, fall with a constant pull, and end at four corners', () => {
    expect([2.9, 3, 4.5, 6, 12, 20].map(r => robustWeight(r, 1, 3))).toEqual([1, 1, 3 / 4.5, 0.5, 0, 0])
    expect(robustWeight(9, 1, 3)).toBeCloseTo((3 / 9) * 0.5, 12)
  })
  it('no decimals are made up for an uncertainty that is none', () => {
    expect([0, Number.NaN, Number.POSITIVE_INFINITY].map(decimalsForShow)).toEqual([0, 0, 0])
  })
})

describe('angles', () => {
  it('wrap to the nearest repeat', () => {
    expect(wrapAngle(3 * Math.PI + 0.1)).toBeCloseTo(-Math.PI + 0.1, 12)
    expect(wrapAngle(2, 1.5)).toBeCloseTo(0.5, 12)
  })
  it('a parabola’s peak between three values; none on a line', () => {
    // −(x − 0.3)² at −1, 0, 1
    expect(parabolaPeak(-1.69, -0.09, -0.49)).toBeCloseTo(0.3, 12)
    expect(parabolaPeak(0, 1, 2)).toBe(0)
  })
})
