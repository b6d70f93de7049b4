import { describe, expect, it } from 'vitest'
import { digits, rpmWithHalfWidth } from '../../../renderer/components/figure-text.ts'

describe('digits', () => {
  // ISO 80000-1:2009, 7.3.1: groups of three from the decimal sign on, by a small space; none is needed for four digits.
  it.each([
    [2331, 0, '2331'],
    [12_000, 0, '12\u202f000'],
    [1_234_567, 0, '1\u202f234\u202f567'],
    [58.25, 1, '58.3'],
    [-1270, 0, '\u22121270'],
    [-0.04, 1, '0.0'],
  ])('%d with %i decimals is %s', (value, decimals, text) => expect(digits(value, decimals)).toBe(text))
})

describe('a rate with its half-width', () => {
  // Rounding by the Particle Data Group's rule (Review of Particle Physics, Introduction, 5.3).
  it.each([
    [2331.2, 9.03, '2331\u00a0±\u00a09'],
    [2331.24, 1.23, '2331.2\u00a0±\u00a01.2'],
    [2331.2, 52.4, '2330\u00a0±\u00a050'],
    [2331.2, 119, '2330\u00a0±\u00a0120'],
    [12_345.6, 980, '12\u202f300\u00a0±\u00a01000'],
  ])('%d, %d is %s', (rpm, half, text) => expect(rpmWithHalfWidth(rpm, half)).toBe(text))

  it('without a band is a whole figure', () => expect(rpmWithHalfWidth(2331.2, null)).toBe('2331'))
})
