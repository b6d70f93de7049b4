import { describe, expect, it } from 'vitest'
import { proposeMishits } from '../../../core/ratings/mishits.ts'
import { moreHitsFor } from '../../../core/ratings/more-hits.ts'
import { paddleFigure } from '../../../core/ratings/paddle-figure.ts'
import { ratedSetUp } from '../../../core/ratings/rated-set-up.ts'
import { sessionFigures } from '../../../core/ratings/session-figures.ts'
import { hitsOf, ratedHit } from './sample-hits.ts'

describe('a proposed mishit', () => {
  const good = hitsOf([2280, 2290, 2300, 2310, 2320], { standardUncertaintyRpm: 5 })
  const topped = ratedHit({ rpm: 1700, standardUncertaintyRpm: 5 })

  it('lies beyond the limit by the modified z-score', () => {
    // By hand: median 2295, distances 15 5 5 15 25 595, their median 15; 0.6745 · 595/15 = 26.8.
    const [proposed, ...others] = proposeMishits([...good, topped])
    expect(others).toEqual([])
    expect(proposed).toMatchObject({ id: topped.id, score: expect.closeTo(-26.755, 2) })
    expect(proposed!.reason).toMatch(/26\.8 below the median, limit \d/)
  })
  it('stays in the figure until it is taken out, and is then known as left out by rule', () => {
    expect(paddleFigure([...good, topped]).figure!.hits).toContain(topped.id)
    const { reason } = proposeMishits([...good, topped])[0]!
    const taken = { ...topped, verdict: { state: 'held-back' as const, reason } }
    const { figure, heldBack } = paddleFigure([...good, taken])
    expect(figure!.hits).not.toContain(topped.id)
    expect(heldBack).toEqual([{ id: topped.id, reason, by: 'rule' }])
  })
  it('is never one of fewer than five hits, nor within the readings’ own uncertainty', () => {
    expect(proposeMishits([...good.slice(0, 3), topped])).toEqual([])
    const agreeing = hitsOf([2300, 2300, 2300, 2300, 2330], { standardUncertaintyRpm: 10 })
    expect(proposeMishits(agreeing)).toEqual([])
  })
  /**
   * The e-Handbook's rule on its own words: |0.6745 (x − median)/MAD| > 3.5 (NIST/SEMATECH 1.3.5.17). The
   * data set of its Grubbs example (Tietjen and Moore 1972, uranium isotope; from memory) has one outlier,
   * 245.57.
   */
  it('is 245.57 among the e-Handbook’s eight mass spectrometer measurements', () => {
    const data = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]
    const hits = hitsOf(data, { standardUncertaintyRpm: 0.1 })
    expect(proposeMishits(hits).map(({ id }) => id)).toEqual([hits[7]!.id])
  })
})

describe('how many more hits a wanted band takes', () => {
  const figure = (rpms: number[], changes = {}) => ratedSetUp(hitsOf(rpms, changes)).figure!
  const five = [2260, 2280, 2300, 2320, 2340]
  const exact = { standardUncertaintyRpm: 1 }

  it('is the fewest with t·s/√n within it: s = √1000, t(97.5 %, 12) = 2.179, t(97.5 %, 11) = 2.201', () => {
    // NIST/SEMATECH e-Handbook, table of t: 13 hits give 19.1 rpm, 12 hits 20.1 rpm.
    expect(moreHitsFor(figure(five, exact), 20)).toEqual({ hits: 8, reason: null })
    expect((2.179 * Math.sqrt(1000)) / Math.sqrt(13)).toBeLessThan(20)
    expect((2.201 * Math.sqrt(1000)) / Math.sqrt(12)).toBeGreaterThan(20)
  })
  it('is none where the band is as small already', () => {
    expect(moreHitsFor(figure(five), 100)).toEqual({ hits: 0, reason: null })
  })
  it('has no number where the camera’s own part is wider: 1.96 · 1 % of 2300 is 45 rpm', () => {
    const shared = figure(five, { ...exact, sharedRelativeUncertainty: 0.01 })
    expect(moreHitsFor(shared, 45)).toEqual({ hits: null, reason: 'shared-part' })
    expect(moreHitsFor(shared, 46).hits).toBeGreaterThan(20)
  })
  it('has no number for a single hit, nor one past all patience', () => {
    expect(moreHitsFor(figure([2300]), 1)).toEqual({ hits: null, reason: 'one-hit' })
    expect(moreHitsFor(figure(five, exact), 0.1)).toEqual({ hits: null, reason: 'too-many' })
  })
})

it('each session has its own figure, the first day first, with what it left out', () => {
  const may = hitsOf([2300, 2320], { session: 'b', day: '2026-05-31' })
  const april = [
    ...hitsOf([2200, 2240], { session: 'a', day: '2026-04-18' }),
    ratedHit({ session: 'a', day: '2026-04-18', verdict: { state: 'open', reason: '' } }),
  ]
  const sessions = sessionFigures([...may, ...april])
  expect(sessions.map(({ session, figure }) => [session, figure!.meanRpm])).toEqual([
    ['a', 2220],
    ['b', 2310],
  ])
  expect(sessions[0]!.heldBack).toHaveLength(1)
})
