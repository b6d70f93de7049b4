import { quantileRank } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { quantile } from '../../core/numerics/quantile.ts'
import { percentiles } from '../../core/ratings/percentile.ts'
import { chanceOf } from '../bench/simulate/random.ts'

const { between } = chanceOf(5)
const distinct = Array.from({ length: 61 }, () => between(1200, 2400))
const tied = Array.from({ length: 61 }, () => 100 * Math.round(between(12, 24)))
const sorted = distinct.toSorted((a, b) => a - b)

/** Plotting positions p(k) of R. Hyndman and Y. Fan, The American Statistician 50 (1996) 361, table 1. */
describe('the percentile of the k-th of n distinct values is Hyndman and Fan’s plotting position', () => {
  const n = sorted.length
  it.each([
    ['strictly-below', 'definition 7, (k − 1)/(n − 1)', (k: number) => (k - 1) / (n - 1)],
    ['mid-rank', 'definition 5, (k − ½)/n', (k: number) => (k - 0.5) / n],
    ['inclusive', 'definition 4, k/n', (k: number) => k / n],
  ] as const)('%s: %s', (definition, _, position) => {
    for (const [i, percentile] of percentiles(sorted, definition).entries())
      expect(percentile).toBeCloseTo(100 * position(i + 1), 9)
  })
  it('and definition 7’s quantile at a paddle’s percentile is that paddle’s value', () => {
    const given = percentiles(distinct, 'strictly-below')
    for (const [i, value] of distinct.entries())
      expect(quantile(distinct, given[i]! / 100)).toBeCloseTo(value, 6)
  })
})

/** By hand, definition 7: 1 + 0.25 · 9, 1 + 0.5 · 9, 1 + 0.75 · 9. */
it('the quartiles of 1 … 10 by definition 7 are 3.25, 5.5, 7.75', () => {
  const ten = Array.from({ length: 10 }, (_, i) => i + 1)
  expect([0, 0.25, 0.5, 0.75, 1].map(p => quantile(ten, p))).toEqual([1, 3.25, 5.5, 7.75, 10])
})

/**
 * simple-statistics' quantileRank gives the mean of the ranks of equal values over n: half a place above
 * our mid-rank, which takes the middle of each place.
 */
it('mid-rank and simple-statistics’ quantileRank differ by half a place, ties or not', () => {
  for (const values of [distinct, tied])
    for (const [i, percentile] of percentiles(values, 'mid-rank').entries())
      expect(percentile! + 50 / values.length).toBeCloseTo(100 * quantileRank(values, values[i]!), 9)
})

describe('percentiles with ties', () => {
  // By hand: 10 20 20 30. Below: 0 1 1 3; at or below: 1 3 3 4.
  it.each([
    ['strictly-below', [0, 100 / 3, 100 / 3, 100]],
    ['mid-rank', [12.5, 50, 50, 87.5]],
    ['inclusive', [25, 75, 75, 100]],
  ] as const)('of 10, 20, 20, 30 are by hand, %s', (definition, expected) => {
    for (const [i, percentile] of percentiles([10, 20, 20, 30], definition).entries())
      expect(percentile).toBeCloseTo(expected[i]!, 9)
  })
  it('give the lowest 0, however many share it', () => {
    expect(percentiles([5, 5, 5, 9], 'strictly-below')).toEqual([0, 0, 0, 100])
  })
  it('do not exist for one without others', () => {
    expect(percentiles([7], 'strictly-below')).toEqual([null])
    expect(percentiles([], 'inclusive')).toEqual([])
  })
})
