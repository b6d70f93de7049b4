import { describe, expect, it } from 'vitest'
import { randomStudentT } from '../../../core/numerics/random-student-t.ts'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { withBorrowedSpread } from '../../../core/ratings/borrowed-spread.ts'
import { comparePairs } from '../../../core/ratings/compare.ts'
import { differenceOf, halfWidthOf, sharedUncertaintyOf } from '../../../core/ratings/known-mean.ts'
import { paddleFigure } from '../../../core/ratings/paddle-figure.ts'
import type { RatedHit } from '../../../core/ratings/rated-hit.ts'
import { hitsOf } from './sample-hits.ts'

const figureOf = (rpms: readonly number[], changes: Partial<RatedHit> = {}) =>
  paddleFigure(hitsOf(rpms, changes)).figure!
const counted = (rpms: readonly number[]) => {
  const figure = figureOf(rpms)
  return { ...figure, hits: figure.hits.length }
}
const shared = { sharedRelativeUncertainty: 0.01 }
const elsewhere = { ...shared, camera: 'Merlin' }
const [fast, slow] = [
  [2290, 2300, 2310, 2300],
  [2190, 2200, 2210, 2200],
]

describe('what hits of a camera share, when paddles are compared,', () => {
  it('is left only of the difference: 1 % of 100 rpm is 1 rpm', () => {
    const difference = differenceOf(figureOf(fast, shared), figureOf(slow, shared))
    expect(sharedUncertaintyOf(difference)).toBeCloseTo(1, 9)
  })
  it('adds up in square between two cameras: 1 % of 2300 and of 2200', () => {
    const difference = differenceOf(figureOf(fast, shared), figureOf(slow, elsewhere))
    expect(sharedUncertaintyOf(difference)).toBeCloseTo(Math.hypot(23, 22), 9)
  })
  it('so tells apart with one camera what two leave open', () => {
    const one = comparePairs([[figureOf(fast, shared), figureOf(slow, shared)]])[0]!
    const two = comparePairs([[figureOf(fast, shared), figureOf(slow, elsewhere)]])[0]!
    expect(one.band!.lowRpm).toBeGreaterThan(80)
    expect(two.band!.highRpm - two.band!.lowRpm).toBeGreaterThan(2 * 1.96 * Math.hypot(23, 22))
    expect(one.probabilityAOverB).toBeGreaterThan(two.probabilityAOverB!)
  })
})

describe('a comparison', () => {
  const [a, b, c] = [figureOf(fast), figureOf(slow), figureOf([2205, 2225, 2190, 2210])]
  it('turned round has the other sign and the other probability', () => {
    const [there, back] = comparePairs([[a, b]]).concat(comparePairs([[b, a]]))
    expect(back!.differenceRpm).toBeCloseTo(-there!.differenceRpm, 9)
    expect(back!.band!.highRpm).toBeCloseTo(-there!.band!.lowRpm, 9)
    expect(back!.probabilityAOverB! + there!.probabilityAOverB!).toBeCloseTo(1, 12)
    expect(back!.adjustedP).toBeCloseTo(there!.adjustedP!, 12)
  })
  it('is even for equal means', () => {
    expect(comparePairs([[a, { ...a }]])[0]).toMatchObject({ differenceRpm: 0, probabilityAOverB: 0.5 })
  })
  it('grows its p with the number of pairs asked for, by Holm: the largest stays, the smallest is tripled', () => {
    const alone = [a, a, b].map((first, i) => comparePairs([[first, [b, c, c][i]!]])[0]!.adjustedP!)
    const together = comparePairs([
      [a, b],
      [a, c],
      [b, c],
    ]).map(one => one.adjustedP!)
    expect(together[2]).toBeCloseTo(alone[2]!, 12)
    expect(Math.min(...together)).toBeCloseTo(3 * Math.min(...alone), 12)
  })
})

describe('a paddle with a single hit', () => {
  it('borrows the scatter of a hit that the others show', () => {
    const known = withBorrowedSpread([counted([2000]), counted([2300, 2340]), counted([2100, 2100, 2160])])
    // By hand: s² of 2300, 2340 is 800; of 2100, 2100, 2160 it is 1200; pooled (800 + 2 · 1200)/3.
    expect(known[0]!.own.standardUncertaintyRpm).toBeCloseTo(Math.sqrt(3200 / 3), 6)
    expect(known[0]!.own.degreesOfFreedom).toBe(3)
    expect(known[1]!.own).toEqual(figureOf([2300, 2340]).own)
  })
  it('cannot be told apart where no paddle shows any: a difference without a band', () => {
    const [a, b] = withBorrowedSpread([counted([2300]), counted([2000])])
    expect(comparePairs([[a!, b!]])[0]).toEqual({
      differenceRpm: 300,
      band: null,
      probabilityAOverB: null,
      adjustedP: null,
    })
  })
})

it('the half-width of a difference holds 95 % of simulated ones, own part t with 3, shared part as large', () => {
  const random = seededRandom(3)
  const known = {
    meanRpm: 0,
    own: { standardUncertaintyRpm: 10, degreesOfFreedom: 3 },
    shared: [{ source: 'camera', standardUncertaintyRpm: 10 }],
  }
  const half = halfWidthOf(known)
  const n = 20_000
  let held = 0
  for (let i = 0; i < n; i++)
    if (
      Math.abs(10 * randomStudentT(random, 3) + 10 * randomStudentT(random, Number.POSITIVE_INFINITY)) < half
    )
      held++
  expect(held / n).toBeGreaterThan(0.945)
  expect(held / n).toBeLessThan(0.975)
})

/** 97.5 % points of Student's t, NIST/SEMATECH e-Handbook, 1.3.6.7.2: 4.303 (2), 2.571 (5), 1.960 (∞). */
it.each([
  [2, 4.303],
  [5, 2.571],
  [Number.POSITIVE_INFINITY, 1.96],
])(
  'drawn t with %d degrees of freedom exceeds its tabled 97.5 %% point in 2.5 of 100 draws',
  (dof, point) => {
    const random = seededRandom(dof)
    const n = 40_000
    let above = 0
    for (let i = 0; i < n; i++) if (randomStudentT(random, dof) > point) above++
    expect(Math.abs(above / n - 0.025)).toBeLessThan(0.003)
  },
)
