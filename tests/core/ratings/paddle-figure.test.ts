import { describe, expect, it } from 'vitest'
import { paddleFigure } from '../../../core/ratings/paddle-figure.ts'
import type { RatedHit } from '../../../core/ratings/rated-hit.ts'
import { hitsOf, ratedHit } from './sample-hits.ts'

const figureOf = (hits: RatedHit[]) => paddleFigure(hits).figure!
const halfWidth = (hits: RatedHit[]) => {
  const { band } = figureOf(hits)
  return (band.highRpm - band.lowRpm) / 2
}

describe('a paddle’s figure', () => {
  it('of one hit is that hit with its own band: t(97.5 %, 10) = 2.228 (NIST/SEMATECH e-Handbook)', () => {
    const figure = figureOf([ratedHit({ rpm: 2331, standardUncertaintyRpm: 4, effectiveDof: 10 })])
    expect(figure).toMatchObject({ meanRpm: 2331, standardUncertaintyRpm: 4, betweenHitSdRpm: null })
    expect(figure.band.highRpm).toBeCloseTo(2331 + 2.228 * 4, 2)
  })

  it('of hits that are known alike is their mean with t·s/√n: t(97.5 %, 4) = 2.776', () => {
    // s of −40 −20 0 20 40 is √1000 (by hand: sum of squares 4000 over 4).
    const hits = hitsOf([2260, 2280, 2300, 2320, 2340], { standardUncertaintyRpm: 2 })
    expect(figureOf(hits).meanRpm).toBeCloseTo(2300, 9)
    expect(halfWidth(hits)).toBeCloseTo((2.776 * Math.sqrt(1000)) / Math.sqrt(5), 1)
    expect(figureOf(hits).betweenHitSdRpm).toBeCloseTo(Math.sqrt(1000 - 4), 6)
  })

  it('leans on the hits that are known better, less so where hits differ anyway', () => {
    const uneven = (spread: number) => [
      ratedHit({ rpm: 2000, standardUncertaintyRpm: 2 }),
      ratedHit({ rpm: 2000 + spread, standardUncertaintyRpm: 40 }),
      ratedHit({ rpm: 2000 - spread, standardUncertaintyRpm: 2 }),
    ]
    const share = (spread: number) => (figureOf(uneven(spread)).meanRpm - 2000) / spread
    expect(share(1)).toBeLessThan(-0.48)
    expect(Math.abs(share(400))).toBeLessThan(0.01)
  })

  it('of two hits counts them alike, however well each is known', () => {
    const hits = [
      ratedHit({ rpm: 2000, standardUncertaintyRpm: 1 }),
      ratedHit({ rpm: 2100, standardUncertaintyRpm: 50 }),
    ]
    expect(figureOf(hits).meanRpm).toBe(2050)
  })

  it('is never known better than its readings allow, even where they happen to agree', () => {
    for (const n of [2, 3, 10]) {
      const hits = hitsOf(Array(n).fill(2300), { standardUncertaintyRpm: 10 })
      // 97.5 % point of the normal distribution: 1.960 (NIST/SEMATECH e-Handbook).
      expect(halfWidth(hits)).toBeCloseTo((1.96 * 10) / Math.sqrt(n), 2)
      expect(figureOf(hits).standardUncertaintyRpm).toBeCloseTo(10 / Math.sqrt(n), 9)
      expect(figureOf(hits).betweenHitSdRpm).toBe(0)
    }
  })

  it('cannot average the camera’s own error away', () => {
    const shared = { standardUncertaintyRpm: 10, sharedRelativeUncertainty: 0.002 }
    const many = hitsOf(Array(4000).fill(2300), shared)
    expect(halfWidth(many)).toBeGreaterThan(1.96 * 0.002 * 2300)
    const twoCameras = many.map((hit, i) => ({ ...hit, camera: i % 2 ? 'Kestrel' : 'Merlin' }))
    expect(halfWidth(twoCameras) / halfWidth(many)).toBeCloseTo(1 / Math.SQRT2, 2)
  })

  it('stays at or above 0, as a rate does', () => {
    expect(figureOf(hitsOf([100, 900])).band.lowRpm).toBe(0)
  })

  it('does not depend on the order of its hits', () => {
    const hits = [2100, 2250, 2180, 2330].map((rpm, i) =>
      ratedHit({ rpm, standardUncertaintyRpm: 5 + 9 * i }),
    )
    const there = figureOf(hits)
    const back = figureOf(hits.toReversed())
    expect(back.meanRpm).toBeCloseTo(there.meanRpm, 9)
    expect(back.band.highRpm).toBeCloseTo(there.band.highRpm, 9)
  })
})

describe('the flag of a paddle’s figure', () => {
  const near = ratedHit({ flag: 'near-ceiling', ceiling: { rpm: 2500, limit: 'smear' } })
  const nearer = ratedHit({ flag: 'near-ceiling', ceiling: { rpm: 2400, limit: 'seeing' } })
  const settled = ratedHit({
    flag: 'ambiguous',
    ceiling: { rpm: 3600, limit: 'sense' },
    settledReason: 'a topspin drive',
  })

  it.each([
    ['clear, without a limit, where all hits are', [ratedHit(), ratedHit()], 'clear', null],
    ['the worst of its hits', [ratedHit(), near, ratedHit()], 'near-ceiling', 'smear'],
    ['with the lowest ceiling of those', [near, nearer], 'near-ceiling', 'seeing'],
    ['ambiguous still where a person chose', [ratedHit(), nearer, settled], 'ambiguous', 'sense'],
  ])('is %s', (_case, hits, flag, limit) => {
    expect(figureOf(hits)).toMatchObject({ flag, limit })
  })
})

describe('a hit is never in the mean, but listed with its reason,', () => {
  it.each<[string, Partial<RatedHit>, RegExp, 'hand'?]>([
    ['while it is open', { verdict: { state: 'open', reason: '' } }, /Not accepted yet/],
    [
      'when it is held back',
      { verdict: { state: 'held-back', reason: 'blurred' } },
      /by hand: blurred/,
      'hand',
    ],
    [
      'when it is held back without a word',
      { verdict: { state: 'held-back', reason: '' } },
      /by hand\.$/,
      'hand',
    ],
    ['when another rate fits and nobody chose', { flag: 'ambiguous' }, /nobody has chosen/],
    ['when it has too few frames', { flag: 'too-few-frames' }, /Too few frames/],
    ['when its marks changed since', { stale: true }, /read it again/],
    ['when it has no reading', { rpm: null, standardUncertaintyRpm: null }, /no reading/],
    ['when its reading has no band', { standardUncertaintyRpm: 0 }, /no band/],
  ])('%s', (_case, changes, said, by: 'hand' | 'rule' = 'rule') => {
    const good = hitsOf([2300, 2320])
    const bad = ratedHit({ rpm: 9000, ...changes })
    const rating = paddleFigure([good[0]!, bad, good[1]!])
    expect(rating.figure).toMatchObject({ meanRpm: 2310, hits: good.map(hit => hit.id) })
    expect(rating.heldBack).toEqual([{ id: bad.id, reason: expect.stringMatching(said), by }])
    expect(paddleFigure([bad])).toMatchObject({ figure: null, heldBack: [{ id: bad.id }] })
  })

  it('and no hits make no figure', () => {
    expect(paddleFigure([])).toEqual({ figure: null, heldBack: [] })
  })
})
