import { describe, expect, it } from 'vitest'
import { usualRules } from '../../../core/contract/rating-rules.ts'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { nearNames } from '../../../core/ratings/near-names.ts'
import { allOf } from '../../../core/ratings/rank-bands.ts'
import { ratedSetUp } from '../../../core/ratings/rated-set-up.ts'
import { type Entrant, rankBandsOf, standingsOf } from '../../../core/ratings/standings.ts'
import { tierOf, tiersOf } from '../../../core/ratings/tiers.ts'
import { hitsOf } from './sample-hits.ts'

const known = (meanRpm: number) => ({
  meanRpm,
  own: { standardUncertaintyRpm: 20, degreesOfFreedom: Number.POSITIVE_INFINITY },
  shared: [],
})

describe('a tier', () => {
  const cutOffs = [
    { name: 'middle', fromRpm: 1700 },
    { name: 'high', fromRpm: 2000 },
  ]
  const tiers = tiersOf({ by: 'rpm', tiers: cutOffs }, [])
  it.each([
    [2300, 'high'],
    [2000, 'high'],
    [1850, 'middle'],
    [1200, 'below all tiers'],
  ])('of %d rpm is %s', (rpm, tier) => {
    expect(tierOf(known(rpm), tiers).tier).toBe(tier)
  })
  it('has no next one where the band crosses no cut-off', () => {
    expect(tierOf(known(1850), tiers).next).toBeNull()
    expect(tierOf(known(2300), tiers).next).toBeNull()
  })
  /** One and half a standard deviation: 15.87 % and 30.85 % of the normal law (NIST/SEMATECH e-Handbook, 1.3.6.7.1). */
  it('says how likely the next one is: one uncertainty below the cut-off 15.87 %, half above it 30.85 %', () => {
    expect(tierOf(known(1980), tiers).next).toEqual({ tier: 'high', probability: expect.closeTo(0.1587, 4) })
    expect(tierOf(known(2010), tiers).next).toEqual({
      tier: 'middle',
      probability: expect.closeTo(0.3085, 4),
    })
  })
  it('of a quarter begins where definition 7 puts it: 1 … 9 at 3, 5 and 7', () => {
    const nine = Array.from({ length: 9 }, (_, i) => i + 1)
    expect(tiersOf(usualRules.tiers, nine).map(tier => tier.fromRpm)).toEqual([
      7,
      5,
      3,
      Number.NEGATIVE_INFINITY,
    ])
  })
})

describe('standings', () => {
  const entrant = (paddle: string, rpms: number[], heldBack = 0): Entrant => ({
    setUpId: paddle,
    paddle,
    setUp: 'stock',
    ...ratedSetUp(hitsOf(rpms)),
    heldBack,
    ...(rpms.length === 0 ? { flag: 'ambiguous' as const } : {}),
  })
  const entrants = [
    entrant('Merlin', [], 2),
    entrant('Teal', [1500, 1510, 1520]),
    entrant('Heron', [2300, 2310, 2320]),
    entrant('Avocet', [2300, 2310, 2320]),
  ]
  const standings = standingsOf(entrants, usualRules)
  it('begin with the highest; equal means share a rank and a percentile and go by name', () => {
    expect(standings.map(one => [one.paddle, one.rank, one.percentile])).toEqual([
      ['Avocet', 1, 50],
      ['Heron', 1, 50],
      ['Teal', 3, 0],
      ['Merlin', null, null],
    ])
  })
  it('have a band a place, and none without a figure', () => {
    const bands = allOf(rankBandsOf(entrants, seededRandom(1)))
    expect(entrants.map(one => bands.get(one.setUpId))).toEqual([
      undefined,
      { low: 3, high: 3 },
      { low: 1, high: 2 },
      { low: 1, high: 2 },
    ])
  })
  it('keep a paddle without a figure, with its flag and what is held back', () => {
    expect(standings[3]).toMatchObject({ meanRpm: null, hits: 0, heldBack: 2, flag: 'ambiguous', tier: null })
  })
})

describe('names that may have been meant', () => {
  const names = ['Heron 14', 'Heron 16', 'Avocet 16', 'Heron 14 / stock']
  it.each([
    ['heron 14', 'Heron 14'],
    ['Heron  14', 'Heron 14'],
    ['Heorn 14', 'Heron 14'],
    ['Avocet', 'Avocet 16'],
    ['Avoset 16', 'Avocet 16'],
  ])('of “%s” begin with “%s”', (given, name) => {
    expect(nearNames(given, names)[0]).toBe(name)
  })
  it('are none for words that are far from all', () => {
    expect(nearNames('Kittiwake', names)).toEqual([])
    expect(nearNames('', names)).toEqual([])
  })
})
