import { describe, expect, it } from 'vitest'
import { holm } from '../../core/numerics/holm.ts'

describe('Holm’s correction', () => {
  /**
   * Y. Benjamini and Y. Hochberg, J. R. Stat. Soc. B 57 (1995) 289, section 4.1: 15 hypotheses on the treatment
   * of myocardial infarction; Bonferroni's procedure at 0.05 (and Holm's with it) rejects the three smallest,
   * of which the paper lists 0.0001, 0.0004, 0.0019. The p-values are from memory.
   */
  const trial = [
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
    0.759, 1,
  ]
  it('rejects the three smallest of Benjamini and Hochberg’s 15', () => {
    expect(holm(trial).filter(p => p <= 0.05)).toHaveLength(3)
  })
  it('multiplies them by 15, 14, 13, 12 (by hand)', () => {
    const [first, second, third, fourth] = holm(trial)
    expect([first, second, third, fourth]).toEqual([
      expect.closeTo(0.0015, 12),
      expect.closeTo(0.0056, 12),
      expect.closeTo(0.0247, 12),
      expect.closeTo(0.114, 12),
    ])
  })

  // By hand: 4 · 0.005, 3 · 0.01, 2 · 0.03, and 1 · 0.04, which may not fall below the one before it.
  it('stops at the first that fails, whatever comes after', () => {
    const adjusted = holm([0.01, 0.04, 0.03, 0.005])
    expect(adjusted.map(p => Number(p.toFixed(9)))).toEqual([0.03, 0.06, 0.06, 0.02])
  })
  it('of one is itself, of none nothing, and never above 1', () => {
    expect([holm([0.3]), holm([]), holm([0.9, 0.8])]).toEqual([[0.3], [], [1, 1]])
  })
})
