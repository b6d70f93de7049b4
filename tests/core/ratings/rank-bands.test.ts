import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import type { KnownMean } from '../../../core/ratings/known-mean.ts'
import { rankBands } from '../../../core/ratings/rank-bands.ts'
import { chanceOf } from '../../bench/simulate/random.ts'

const known = (meanRpm: number, u = 10, shared = 0, degreesOfFreedom = 20): KnownMean => ({
  meanRpm,
  own: { standardUncertaintyRpm: u, degreesOfFreedom },
  shared: [{ source: 'camera Kestrel', standardUncertaintyRpm: shared }],
})
const bandsOf = (means: KnownMean[], seed = 1) => rankBands(means, seededRandom(seed), 400)

describe('rank bands', () => {
  it('are single places where means lie far apart, the highest first', () => {
    expect(bandsOf([known(1500), known(2300), known(1900)])).toEqual([
      { low: 3, high: 3 },
      { low: 1, high: 1 },
      { low: 2, high: 2 },
    ])
  })
  it('are all places where nothing tells the means apart', () => {
    for (const band of bandsOf([2000, 2001, 2002, 2003].map(rpm => known(rpm))))
      expect(band).toEqual({ low: 1, high: 4 })
  })
  it('join only those that lie together', () => {
    const bands = bandsOf([2300, 2000, 2005, 1600].map(rpm => known(rpm)))
    expect(bands.map(({ low, high }) => `${low}–${high}`)).toEqual(['1–1', '2–3', '2–3', '4–4'])
  })
  it('are not widened by what all hits of one camera share', () => {
    const spread = [2300, 2200, 2100, 2000]
    const alone = bandsOf(spread.map(rpm => known(rpm)))
    expect(bandsOf(spread.map(rpm => known(rpm, 10, 0.05 * rpm)))).toEqual(alone)
  })
  it('are widened by a scatter known from two hits', () => {
    const bandsWith = (degreesOfFreedom: number) =>
      bandsOf([2300, 2240, 1900, 1800].map(rpm => known(rpm, 10, 0, degreesOfFreedom)))
    expect(bandsWith(20)[0]).toEqual({ low: 1, high: 1 })
    expect(bandsWith(1)[0]!.high).toBeGreaterThan(1)
  })
  it('are all places for a mean that tells nothing of itself', () => {
    const bands = bandsOf([known(2300), known(1900), known(2100, Number.POSITIVE_INFINITY)])
    expect(bands[2]).toEqual({ low: 1, high: 3 })
    expect(bands[0]!.low).toBe(1)
  })
  it('are the same for the same seed, of one paddle its one place, of none none', () => {
    const means = [2000, 2030, 2050, 2080].map(rpm => known(rpm))
    expect(bandsOf(means, 8)).toEqual(bandsOf(means, 8))
    expect(bandsOf([known(2000)])).toEqual([{ low: 1, high: 1 }])
    expect(bandsOf([])).toEqual([])
  })
})

describe('rank bands hold the true place in 95 of 100', () => {
  const { normal } = chanceOf(2)
  it.each([
    ['near ties', 1],
    ['paddles as far apart as their uncertainty', 15],
    ['a wide season', 100],
  ])('of ten paddles, %s', (_, spread) => {
    let [held, all] = [0, 0]
    for (let season = 0; season < 60; season++) {
      const truths = Array.from({ length: 10 }, () => normal(spread))
      const bands = rankBands(
        truths.map(truth => known(truth + normal(10), 10, 0, Number.POSITIVE_INFINITY)),
        seededRandom(season),
        200,
      )
      for (const [i, { low, high }] of bands.entries()) {
        const place = 1 + truths.filter(truth => truth > truths[i]!).length
        if (low <= place && place <= high) held++
        all++
      }
    }
    expect(held / all).toBeGreaterThan(0.94)
  })
})
