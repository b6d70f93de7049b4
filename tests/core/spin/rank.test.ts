import { describe, expect, it } from 'vitest'
import {
  aliasesAreBroken,
  aliasSpacing,
  foldedRate,
  isPlausible,
  rankCandidates,
} from '../../../core/spin/alias.ts'
import { ceilingOf } from '../../../core/spin/ceiling.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { radPerSecondOfRpm, rpmOfRadPerSecond } from '../../../core/units/rate.ts'
import { candidate, estimateAt, observationsWith } from './facts.ts'

const found = (rpm: number, logLikelihood = 0) => ({
  rateRadPerSecond: radPerSecondOfRpm(rpm),
  logLikelihood,
})
const ranked = (rates: ReturnType<typeof found>[], o: Observations) =>
  rankCandidates(rates, o).map(one => Math.round(rpmOfRadPerSecond(one.rateRadPerSecond)))

/** method.md, "Fitting the bearing", 3, and its table: 60·f/m rpm apart; 2330 rpm at 60 fps looks like −1270. */
describe('rates that look alike', () => {
  it.each([
    [2330, 60, 1, -1270],
    [2330, 60, 2, 530],
    [1200, 60, 2, -600],
    [2048, 120, 2, -1552],
    [2330, 240, 2, 2330],
  ])('%d rpm at %d fps, order %d, folds to %d', (rpm, fps, order, folded) => {
    expect(rpmOfRadPerSecond(foldedRate(radPerSecondOfRpm(rpm), fps, order))).toBeCloseTo(folded, 9)
    expect(rpmOfRadPerSecond(aliasSpacing(fps, order))).toBeCloseTo((60 * fps) / order, 9)
  })
})

describe('plausible', () => {
  const o = (maxRpm: number, sense: 'clockwise' | 'counter-clockwise' | null) => ({
    plausible: { maxRateRadPerSecond: radPerSecondOfRpm(maxRpm), sense },
  })
  it('is up to the bound, both ways where no sense is known', () => {
    for (const sign of [1, -1]) {
      expect(isPlausible(radPerSecondOfRpm(sign * 5000), o(5000, null))).toBe(true)
      expect(isPlausible(radPerSecondOfRpm(sign * 5001), o(5000, null))).toBe(false)
    }
  })
  it('is one way where it is; a ball that stands still turns neither', () => {
    expect([1, -1, 0].map(rate => isPlausible(rate, o(5000, 'clockwise')))).toEqual([true, false, true])
    expect([1, -1, 0].map(rate => isPlausible(rate, o(5000, 'counter-clockwise')))).toEqual([
      false,
      true,
      true,
    ])
  })
})

describe('candidates', () => {
  it('as likely as each other stand with the slower one first, all with support 1', () => {
    const rates = [found(-2330), found(1270, -0.6), found(4870, -0.3)]
    expect(ranked(rates, observationsWith())).toEqual([1270, -2330, 4870])
    for (const { support } of rankCandidates(rates, observationsWith())) expect(support).toBe(1)
  })
  it('less likely by more than half stand by likelihood, with it as support', () => {
    const rates = [found(100, -1), found(200, -0.8), found(3000)]
    expect(ranked(rates, observationsWith())).toEqual([3000, 200, 100])
    const [first, second, third] = rankCandidates(rates, observationsWith())
    expect([first!.support, second!.support, third!.support]).toEqual([
      1,
      expect.closeTo(Math.exp(-0.8), 12),
      expect.closeTo(Math.exp(-1), 12),
    ])
  })
  // Clearly worse is a likelihood below 1e-4 of the best: a logarithm of −9.21.
  it('that are plausible stand before likelier ones that are not, unless clearly worse', () => {
    expect(ranked([found(9000), found(2330, -9.2)], observationsWith())).toEqual([2330, 9000])
    expect(ranked([found(9000), found(2330, -9.22)], observationsWith())).toEqual([9000, 2330])
    expect(rankCandidates([found(9000), found(2330)], observationsWith()).map(one => one.plausible)).toEqual([
      true,
      false,
    ])
  })
  it('none of which is plausible stand by likelihood', () => {
    expect(ranked([found(9000, -3), found(-8000), found(7000, -2)], observationsWith())).toEqual([
      -8000, 7000, 9000,
    ])
  })
})

/** A streak of so many degrees in every frame, 20 px from the centre, exposed for 1/500 s: 1° is 83.3 rpm. */
function streaks(arcDeg: number | null, change: Partial<Observations> = {}): Observations {
  const o = observationsWith(change)
  return {
    ...o,
    capture: { ...o.capture, exposureSeconds: 1 / 500 },
    sightings: o.frames.map((_, frame) => ({
      kind: 'point',
      frame,
      mark: 0,
      xPx: 312,
      yPx: 276,
      smearArcRad: arcDeg === null ? null : (arcDeg * Math.PI) / 180,
    })),
  }
}

describe('streaks', () => {
  const both = [found(1270), found(-2330)]
  it('tell a rate by their arc: 28° is 2330 rpm, 15.24° is 1270', () => {
    expect(ranked(both, streaks(28))).toEqual([-2330, 1270])
    expect(ranked(both, streaks(15.24))).toEqual([1270, -2330])
  })
  it('say as much as the law of their mean: clicks, and soft ends of 15 %', () => {
    const [first, second] = rankCandidates(both, streaks(28))
    // Variance of the mean of 24 arcs, each with two clicks of 1 px at 20 px, and 15 % of the arc expected.
    const log = (rpm: number) => {
      const expected = (rpm * 6 * Math.PI) / 180 / 500
      const spread = 2 / 20 ** 2 / 24 + (0.15 * expected) ** 2
      return -0.5 * (((28 * Math.PI) / 180 - expected) ** 2 / spread + Math.log(spread))
    }
    expect(Math.log(second!.support)).toBeCloseTo(log(1270) - log(2330), 9)
    expect(first!.support).toBe(1)
  })
  it('say nothing where no exposure is known, none was marked, or all are directions', () => {
    const o = streaks(28)
    for (const without of [
      { ...o, capture: { ...o.capture, exposureSeconds: null } },
      streaks(null),
      { ...o, sightings: observationsWith().sightings },
      { ...o, frames: o.frames.map(frame => ({ ...frame, outline: null })) },
    ])
      expect(rankCandidates(both, without).map(one => one.support)).toEqual([1, 1])
  })
})

describe('aliases are told apart', () => {
  const alone = { candidates: [candidate(2330)] }
  const two = { candidates: [candidate(2330), candidate(1270, 1e-4)] }
  const uneven = observationsWith()
  uneven.frames = uneven.frames.map((frame, i) => ({
    ...frame,
    timeSeconds: (i + 0.2 * Math.sin(2.1 * i)) / 240,
  }))
  const broken = (o: Observations, change = alone) => aliasesAreBroken(estimateAt(2330, o, change), o)
  it('by uneven times, or by streaks of a known exposure, where one plausible rate is left', () => {
    expect(broken(observationsWith())).toBe(false)
    expect(broken(uneven)).toBe(true)
    expect(broken(streaks(28))).toBe(true)
    expect(broken(streaks(null))).toBe(false)
    const o = streaks(28)
    expect(broken({ ...o, capture: { ...o.capture, exposureSeconds: null } })).toBe(false)
  })
  it('not where another is left that is plausible and not clearly worse', () => {
    expect(broken(uneven, two)).toBe(false)
    expect(broken(uneven, { candidates: [candidate(2330), candidate(1270, 0.9e-4)] })).toBe(true)
    expect(broken(uneven, { candidates: [candidate(2330), candidate(9000, 1, false)] })).toBe(true)
  })
  it('and then the sense is no ceiling, the next limit is', () => {
    expect(ceilingOf(estimateAt(2330, uneven, alone), uneven)).toBeNull()
    const smeared = streaks(28)
    expect(ceilingOf(estimateAt(2330, smeared, alone), smeared)).toEqual({ rpm: 3750, limit: 'smear' })
  })
})
