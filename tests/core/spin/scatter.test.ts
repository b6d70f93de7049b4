import { describe, expect, it } from 'vitest'
import { bandOf } from '../../../core/spin/band.ts'
import { budgetLineOf, random, rootSum, sum, systematic } from '../../../core/spin/contribution.ts'
import type { SightingFit } from '../../../core/spin/estimate.ts'
import { scatterOf } from '../../../core/spin/scatter.ts'

/**
 * s² = (ν₁s₁² + ν₂s₂²)/(ν₁ + ν₂) (JCGM 100:2008, H.3.6 note). Known beforehand: 1.5 px with 8 degrees of freedom
 * where nobody says, a study's own with 50 (G.4.2); χ² at 1 % and 99 % from NIST/SEMATECH e-Handbook, 1.3.6.7.4.
 */
describe('what a click is worth', () => {
  it('of nothing to go by is what is assumed', () => {
    expect(scatterOf(0, 0, null)).toEqual({
      px: 1.5,
      from: 'assumed',
      degreesOfFreedom: 8,
      redundancy: 0,
    })
    expect(scatterOf(0, -1, null)).toMatchObject({ px: 1.5, degreesOfFreedom: 8, redundancy: 0 })
  })
  it('of one residual is pooled with what is assumed', () => {
    const { px, from, degreesOfFreedom } = scatterOf(4, 1, null)
    expect(from).toBe('assumed')
    expect(px).toBeCloseTo(Math.sqrt((8 * 2.25 + 4) / 9), 12)
    expect(degreesOfFreedom).toBe(9)
  })
  it('of two residuals and nobody’s word is the residuals’', () => {
    expect(scatterOf(8, 2, null)).toEqual({
      px: 2,
      from: 'residuals',
      degreesOfFreedom: 2,
      redundancy: 2,
    })
  })
  it('that agrees with a person’s study is pooled with it', () => {
    const { px, from, degreesOfFreedom, redundancy } = scatterOf(12, 10, 1)
    expect(from).toBe('stated')
    expect(px).toBeCloseTo(Math.sqrt((50 + 12) / 60), 12)
    expect([degreesOfFreedom, redundancy]).toEqual([60, 10])
  })
  // χ² of 10 degrees of freedom: 23.209 at 99 %, 2.558 at 1 %; the cube that stands in for it is within 3 %.
  it.each([
    [22, 'stated'],
    [24.2, 'residuals'],
    [2.7, 'stated'],
    [2.4, 'residuals'],
  ])('whose sum of squares over the study’s is %d of 10: from %s', (misfit, from) => {
    expect(scatterOf(misfit * 4, 10, 2).from).toBe(from)
  })
  it('of twenty residuals is theirs, study or not', () => {
    expect(scatterOf(20, 20, 1).from).toBe('residuals')
    expect(scatterOf(19, 19, 1).from).toBe('stated')
    expect(scatterOf(80, 20, 1).px).toBe(2)
  })
  it('less than one degree of freedom doubts nobody’s word', () => {
    expect(scatterOf(400, 0.5, 1).from).toBe('stated')
  })
})

describe('contributions', () => {
  it('are random and a hit’s own, or systematic and perhaps shared', () => {
    expect(random('grid', 2)).toEqual({
      source: 'grid',
      standardUncertainty: 2,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      kind: 'random',
      sharedByHits: false,
    })
    expect(systematic('lens', 3)).toMatchObject({ kind: 'systematic', sharedByHits: false })
    expect(systematic('clock', 3, true)).toMatchObject({ kind: 'systematic', sharedByHits: true })
  })
  it('are shown in rpm, 30/π of rad/s', () => {
    expect(budgetLineOf(systematic('clock', Math.PI, true))).toEqual({
      source: 'clock',
      standardUncertaintyRpm: expect.closeTo(30, 12),
      kind: 'systematic',
      sharedByHits: true,
    })
  })
  it('add up over sightings, or as the root of squares', () => {
    const fits = [3, 4].map(weight => ({ weight }) as SightingFit)
    expect(sum(fits, (fit, k) => fit.weight * (k + 1))).toBe(11)
    expect(rootSum(fits, fit => fit.weight)).toBe(5)
  })
  it('that follow one click error err together: √(2/ν)·Σu² = Σ√(2/νᵢ)·uᵢ²', () => {
    const part = (u: number, degreesOfFreedom: number, withScatter: boolean) => ({
      ...random('a', u),
      degreesOfFreedom,
      withScatter,
    })
    // Of one ν the same: 8; apart they would have 625/((81 + 256)/8) = 14.8.
    expect(bandOf([part(3, 8, true), part(4, 8, true)]).degreesOfFreedom).toBeCloseTo(8, 9)
    expect(bandOf([part(3, 8, false), part(4, 8, false)]).degreesOfFreedom).toBeCloseTo(5000 / 337, 9)
    // ν = 4 and 16: (25/(9/2 + 16/4))².
    expect(bandOf([part(3, 4, true), part(4, 16, true)]).degreesOfFreedom).toBeCloseTo((25 / 8.5) ** 2, 9)
    // Beside one on its own: (25 + 144)²/(25²/8 + 144²/10).
    const beside = bandOf([part(3, 8, true), part(4, 8, true), part(12, 10, false)])
    expect(beside.degreesOfFreedom).toBeCloseTo(169 ** 2 / (625 / 8 + 144 ** 2 / 10), 9)
    expect(beside.standardUncertainty).toBeCloseTo(13, 12)
    // What is known without doubt has no part in it.
    const sure = Number.POSITIVE_INFINITY
    expect(bandOf([part(3, sure, true), part(4, sure, true)]).degreesOfFreedom).toBe(sure)
  })
  it('make a band by Student’s t of their effective degrees of freedom', () => {
    // u = 5 of 3 (ν = 4) and 4 (no doubt): ν = 625/20.25 = 30.86, where t is between 2.042 (30) and 2.021 (40).
    const band = bandOf([{ ...random('a', 3), degreesOfFreedom: 4 }, systematic('b', 4)])
    expect(band.standardUncertainty).toBe(5)
    expect(band.degreesOfFreedom).toBeCloseTo(30.864, 3)
    expect(band.halfWidth / 5).toBeGreaterThan(2.021)
    expect(band.halfWidth / 5).toBeLessThan(2.042)
    // NIST/SEMATECH e-Handbook, 1.3.6.7.2: 2.776 for ν = 4, 1.960 without end.
    expect(bandOf([{ ...random('a', 1), degreesOfFreedom: 4 }]).halfWidth).toBeCloseTo(2.776, 3)
    expect(bandOf([systematic('b', 1)]).halfWidth).toBeCloseTo(1.96, 3)
  })
})
