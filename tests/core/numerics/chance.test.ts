import { expect, it } from 'vitest'
import { randomStudentT } from '../../../core/numerics/random-student-t.ts'
import { robustLoss } from '../../../core/numerics/robust-loss.ts'
import { robustWeight } from '../../../core/numerics/robust-weight.ts'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'

it('gives the numbers that this generator is known for, the same for the same seed', () => {
  // The first three of mulberry32 from seed 0, from memory of its published test runs.
  const random = seededRandom(0)
  const first = [random(), random(), random()]
  expect(first).toEqual([0.26642920868471265, 0.0003297457005828619, 0.2232720274478197])
  const again = seededRandom(0)
  expect([again(), again(), again()]).toEqual(first)
  expect(seededRandom(1)()).not.toBe(first[0])
})

it('is even from 0 to below 1', () => {
  const random = seededRandom(3)
  const bins = Array<number>(10).fill(0)
  for (let i = 0; i < 10_000; i++) bins[Math.floor(10 * random())]!++
  expect(bins).toHaveLength(10)
  // χ² of 9 degrees of freedom, 99 %: 21.666 (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
  expect(bins.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0)).toBeLessThan(21.666)
})

// Two-sided 5 % points of Student's t: NIST/SEMATECH e-Handbook, 1.3.6.7.2; variance ν/(ν − 2).
it.each([
  [4, 2.776, 2],
  [10, 2.228, 1.25],
  [Number.POSITIVE_INFINITY, 1.96, 1],
])(
  'draws from Student’s t of %d degrees of freedom lie beyond ±%d once in twenty',
  (dof, point, variance) => {
    const random = seededRandom(11)
    const draws = Array.from({ length: 40_000 }, () => randomStudentT(random, dof))
    const beyond = (sign: 1 | -1) => draws.filter(draw => sign * draw > point).length / draws.length
    // Three standard errors of a share of 2.5 % among 40,000 are 0.23 %.
    expect(Math.abs(beyond(1) - 0.025)).toBeLessThan(0.0024)
    expect(Math.abs(beyond(-1) - 0.025)).toBeLessThan(0.0024)
    const seen = draws.reduce((sum, draw) => sum + draw * draw, 0) / draws.length
    // The fourth moment of ν = 4 is infinite: there the variance settles slowly.
    expect(Math.abs(seen / variance - 1)).toBeLessThan(dof === 4 ? 0.15 : 0.04)
  },
)

it('a loss has the slope that its weight says, on both sides and across its corners', () => {
  for (const corner of [1, 2.5])
    for (let size = -6 * corner; size <= 6 * corner; size += 0.137) {
      const step = 1e-6
      const slope = (robustLoss(size + step, corner) - robustLoss(size - step, corner)) / (2 * step)
      expect(slope).toBeCloseTo(2 * robustWeight(size, 1, corner) * size, 5)
    }
})

it('a loss is a square near zero, then a line, then bends to its most', () => {
  // By hand for corner 1: t², 2t − 1, 5 − (4 − t)²/2, 5.
  expect([0, 0.5, 1, 1.5, 2, 3, 4, 9, -9].map(size => robustLoss(size, 1))).toEqual([
    0, 0.25, 1, 2, 3, 4.5, 5, 5, 5,
  ])
  // For corner 2: t², 4t − 4, 20 − (8 − t)²/2, 20.
  expect([1, 2, 3, 4, 6, 8, 9].map(size => robustLoss(size, 2))).toEqual([1, 4, 8, 12, 18, 20, 20])
})
