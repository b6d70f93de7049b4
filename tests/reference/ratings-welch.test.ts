import ttest2 from '@stdlib/stats-ttest2'
import { describe, expect, it } from 'vitest'
import { allPairs, comparePairs } from '../../core/ratings/compare.ts'
import { paddleFigure } from '../../core/ratings/paddle-figure.ts'
import { chanceOf } from '../bench/simulate/random.ts'
import { hitsOf } from '../core/ratings/sample-hits.ts'

/** With readings that are known far better than hits scatter, a comparison is Welch's test of two samples. */
const exact = { standardUncertaintyRpm: 1e-6 }
const figureOf = (rpms: readonly number[]) => paddleFigure(hitsOf(rpms, exact)).figure!

describe('two paddles with exactly read hits compare as by Welch’s test of @stdlib/stats-ttest2', () => {
  const { normal, between } = chanceOf(11)
  const samples = Array.from({ length: 40 }, (_, i) => {
    const sampleOf = (n: number, mean: number, sd: number) =>
      Array.from({ length: n }, () => mean + normal(sd))
    return [
      sampleOf(3 + (i % 9), 2000 + between(-40, 40), between(10, 80)),
      sampleOf(3 + ((3 * i) % 7), 2000 + between(-40, 40), between(10, 80)),
    ] as const
  })

  it('in difference, band, p and probability, on 40 random pairs', () => {
    for (const [a, b] of samples) {
      const ours = comparePairs([[figureOf(a), figureOf(b)]])[0]!
      const theirs = ttest2(a, b, { alpha: 0.05, variance: 'unequal' })
      const greater = ttest2(a, b, { alternative: 'greater', variance: 'unequal' })
      expect(ours.differenceRpm).toBeCloseTo(theirs.xmean - theirs.ymean, 9)
      expect(ours.adjustedP).toBeCloseTo(theirs.pValue, 6)
      expect(ours.probabilityAOverB).toBeCloseTo(1 - greater.pValue, 6)
      expect(ours.band!.lowRpm).toBeCloseTo(theirs.ci[0]!, 4)
      expect(ours.band!.highRpm).toBeCloseTo(theirs.ci[1]!, 4)
    }
  })
})

/**
 * Student's sleep data (The probable error of a mean, Biometrika 6 (1908) 1), hours gained with two drugs;
 * Welch's test as R prints it in the example of t.test: t = −1.8608, df = 17.776, p = 0.07939, 95 % limits
 * −3.3654832 and 0.2054832 (from memory).
 */
it('Student’s sleep data has Welch’s p = 0.07939 and limits −3.3655 and 0.2055', () => {
  const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2]
  const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]
  const { band, adjustedP } = comparePairs([[figureOf(first), figureOf(second)]])[0]!
  expect(adjustedP).toBeCloseTo(0.07939, 5)
  expect(band!.lowRpm).toBeCloseTo(-3.3654832, 5)
  expect(band!.highRpm).toBeCloseTo(0.2054832, 5)
})

it('every pair of four is looked at once', () => {
  expect(allPairs(['a', 'b', 'c', 'd']).map(pair => pair.join(''))).toEqual([
    'ab',
    'ac',
    'ad',
    'bc',
    'bd',
    'cd',
  ])
})
