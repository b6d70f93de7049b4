import { describe, expect, test } from 'vitest'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { clearlyWorseSupport } from '../../../core/spin/assumptions.ts'
import { evidenceIn, patches } from '../../../core/vision/surface/evidence.ts'
import { areAliases, logOdds } from '../../../core/vision/surface/odds.ts'

const clearlyWorse = Math.log(clearlyWorseSupport)
const random = seededRandom(11)
/** Two normal values by Box and Muller's transform. */
function normals(): [number, number] {
  const size = Math.sqrt(-2 * Math.log(1 - random()))
  const turn = 2 * Math.PI * random()
  return [size * Math.cos(turn), size * Math.sin(turn)]
}
/** What a frame says whose pattern truly has the correlation c with the others', drawn patch by patch. */
function drawn(c: number): number {
  let [a, b, ab] = [0, 0, 0]
  for (let k = 0; k < patches; k++) {
    const [x, other] = normals()
    const y = c * x + Math.sqrt(1 - c * c) * other
    a += x * x
    b += y * y
    ab += x * y
  }
  return evidenceIn(ab / Math.sqrt(a * b), patches)
}
const flight = (frames: number, c: (at: number) => number) =>
  Float64Array.from({ length: frames }, (_, i) => drawn(c(i / (frames - 1))))
const better = (a: Float64Array, b: Float64Array) =>
  a.reduce((sum, one) => sum + one, 0) >= b.reduce((sum, one) => sum + one, 0) ? [a, b] : [b, a]

describe('the odds of a rival', () => {
  test('are even for one that the frames speak for as much', () => {
    const one = flight(12, () => 0.7)
    expect(logOdds(one, one)).toBeCloseTo(0, 12)
    // The same evidence in another order: no difference in all.
    expect(logOdds(one.toReversed(), one)).toBeCloseTo(0, 6)
  })

  // 1e-4 is what a rival must fall below: of 400 pairs of equals hardly ever one may (0.04 expected).
  test.each([
    [6, 0.8],
    [10, 0.4],
    [30, 0.7],
  ])('never call one of two equals clearly worse by chance: %d frames, correlation %d', (frames, c) => {
    let called = 0
    for (let k = 0; k < 400; k++) {
      const [best, rival] = better(
        flight(frames, () => c),
        flight(frames, () => c),
      )
      if (logOdds(rival!, best!) < clearlyWorse) called++
    }
    expect(called).toBeLessThanOrEqual(1)
  })

  test('make one clearly worse that slips in the course of a flight and fits its middle alone', () => {
    const best = flight(24, () => 0.85)
    const slipping = flight(24, at => 0.85 - 1.2 * Math.abs(at - 0.5))
    expect(logOdds(slipping, best)).toBeLessThan(clearlyWorse)
  })

  test('make one clearly worse in ten frames that hardly agrees, though the frames say unevenly much', () => {
    const best = flight(10, at => 0.7 + 0.25 * at)
    const poor = flight(10, () => 0.2)
    expect(logOdds(poor, best)).toBeLessThan(clearlyWorse)
  })

  test('leave a rival of smeared frames open that is only somewhat worse', () => {
    const best = flight(12, () => 0.45)
    const rival = flight(12, () => 0.35)
    expect(logOdds(rival, best)).toBeGreaterThan(clearlyWorse)
  })
})

describe('aliases', () => {
  // 120 frames a second: a whole turn a frame is 2π·120 rad/s about the same axis, either way (method.md, fitting the bearing, 3).
  test('are rotations whole turns a frame apart about one axis', () => {
    const turns = 2 * Math.PI * 120
    expect(areAliases([0, 60, 80], [0, 60 - 0.6 * turns, 80 - 0.8 * turns], 1 / 120)).toBe(true)
    expect(areAliases([0, 60, 80], [0, 60 + 1.2 * turns, 80 + 1.6 * turns], 1 / 120)).toBe(true)
  })

  test('are neither the rotation itself, nor one half a turn a frame away, nor the same rate about another axis', () => {
    expect(areAliases([0, 60, 80], [0, 60.1, 80], 1 / 120)).toBe(false)
    expect(areAliases([0, 0, 300], [0, 0, 300 - Math.PI * 120], 1 / 120)).toBe(false)
    expect(areAliases([0, 0, 300], [300, 0, 0], 1 / 120)).toBe(false)
  })
})
