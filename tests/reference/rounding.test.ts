import { describe, expect, it } from 'vitest'
import { roundForShow } from '../../core/numerics/round-for-show.ts'

/** Review of Particle Physics, Introduction, 5.3 "Rounding": the two worked results, and the ends of its three rules. */
describe('rounding by the rule of the Particle Data Group', () => {
  it('0.827 ± 0.119 appears as 0.83 ± 0.12', () => {
    expect(roundForShow(0.827, 0.119)).toEqual({ value: 0.83, uncertainty: 0.12, decimals: 2 })
  })
  it('0.827 ± 0.367 turns into 0.8 ± 0.4', () => {
    expect(roundForShow(0.827, 0.367)).toEqual({ value: 0.8, uncertainty: 0.4, decimals: 1 })
  })
  it.each([
    ['100', 100, 100, -1],
    ['354', 354, 350, -1],
    ['355', 355, 400, -2],
    ['949', 949, 900, -2],
    ['950', 950, 1000, -2],
    ['999', 999, 1000, -2],
  ])('three leading digits %s', (_, uncertainty, shown, decimals) => {
    expect(roundForShow(0, uncertainty)).toMatchObject({ uncertainty: shown, decimals })
  })
  it('a large uncertainty takes digits off the value too', () => {
    expect(roundForShow(2331.2, 96.4)).toEqual({ value: 2330, uncertainty: 100, decimals: -1 })
  })
})
