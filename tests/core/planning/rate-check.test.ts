import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { counterRate } from '../../../core/planning/rate-check/counter-rate.ts'
import { dropRate } from '../../../core/planning/rate-check/drop-rate.ts'
import { fallen, terminalSpeed } from '../../../core/planning/rate-check/fall.ts'
import { apparentCycles, lampRate } from '../../../core/planning/rate-check/lamp-rate.ts'
import type { RateFound } from '../../../core/planning/rate-check/rate-found.ts'
import { turntableRate } from '../../../core/planning/rate-check/turntable-rate.ts'
import { chanceOf } from '../../bench/simulate/random.ts'
import { marksOf } from '../spin/truth.ts'

const found = (rate: RateFound) => {
  if (!rate.measured) throw new Error(rate.reason)
  return rate
}
const trueFps = 239.76

describe('a turntable', () => {
  const turning = (seconds: number) => {
    const frames = Math.round(seconds * 10)
    const marks = marksOf({
      rpm: 100 / 3,
      fps: 240,
      frames,
      radiusPx: 200,
      clickPx: 1,
      timeOf: i => (24 * i) / trueFps,
    })
    marks.frames.forEach((frame, i) => {
      frame.index = 24 * i
    })
    return marks
  }

  it('gives the capture rate within 0.1 %, and its uncertainty holds the truth', () => {
    const { captureFps, relativeUncertainty } = found(turntableRate(turning(6), 100 / 3, 0))
    expect(Math.abs(captureFps / trueFps - 1)).toBeLessThan(0.001)
    expect(Math.abs(captureFps / trueFps - 1)).toBeLessThan(3 * relativeUncertainty)
  })

  it('what is not known of its own rate is in the uncertainty', () => {
    expect(found(turntableRate(turning(6), 100 / 3, 0.002)).relativeUncertainty).toBeGreaterThan(0.002)
  })

  it('too few turns are refused with what would do', () => {
    const refused = turntableRate(turning(1.2), 100 / 3, 0)
    expect(refused).toMatchObject({ measured: false, reason: expect.stringContaining('turns') })
  })
})

describe('a fall', () => {
  it('without drag is v·t + g·t²/2: 4.903 m in the first second', () => {
    expect(fallen(1, 0, Number.POSITIVE_INFINITY)).toBeCloseTo(4.903325, 6)
    expect(fallen(1, 0, 1e6)).toBeCloseTo(4.903325, 3)
  })

  it('with drag keeps to its equation: y″ = g·(1 − (y′/w)²)', () => {
    const [w, t, h] = [14, 0.6, 1e-4]
    const y = (at: number) => fallen(at, 1, w)
    const speed = (y(t + h) - y(t - h)) / (2 * h)
    const acceleration = (y(t + h) - 2 * y(t) + y(t - h)) / h ** 2
    expect(acceleration).toBeCloseTo(9.80665 * (1 - (speed / w) ** 2), 2)
  })

  it('a light ball is slowed far more than a heavy one', () => {
    expect(terminalSpeed(0.024, 0.074, 0.45)).toBeGreaterThan(10)
    expect(terminalSpeed(0.024, 0.074, 0.45)).toBeLessThan(16)
    expect(terminalSpeed(0.046, 0.0427, 0.45)).toBeGreaterThan(30)
  })

  it('of a ball gives the capture rate within 1 %', () => {
    const chance = chanceOf(5)
    const pxPerMetre = 40 / 0.074
    const frames = Array.from({ length: 30 }, (_, i): Marks['frames'][number] => ({
      index: 4 * i,
      outline: {
        xPx: 300 + chance.normal(0.8),
        yPx: 20 + pxPerMetre * eulerFall((4 * i) / trueFps) + chance.normal(0.8),
        radiusPx: 20 + chance.normal(0.5),
      },
      seen: [],
    }))
    const rate = found(dropRate({ ...marksOf({ fps: 240 }), frames }, 0.024))
    expect(Math.abs(rate.captureFps / trueFps - 1)).toBeLessThan(0.01)
    expect(rate.relativeUncertainty).toBeGreaterThan(0.002)
    expect(rate.relativeUncertainty).toBeLessThan(0.02)
  })

  it('too few outlines are refused', () => {
    expect(dropRate({ ...marksOf({ fps: 240 }), frames: [] }, 0.024).measured).toBe(false)
  })
})

/** From rest with drag 0.45, by small steps: shares no formula with the product. */
function eulerFall(until: number): number {
  const byMass = (1.2 * 0.45 * Math.PI * 0.037 ** 2) / (2 * 0.024)
  let [y, v] = [0, 0]
  const dt = 1e-5
  for (let t = 0; t < until; t += dt) {
    v += (9.80665 - byMass * v * v) * dt
    y += v * dt
  }
  return y
}

describe('a lamp', () => {
  it.each([
    // Stroboscope discs of turntables: bars · rpm / 60 is the lamp's flashes a second, so they stand still.
    [216, 100 / 3, 120],
    [180, 100 / 3, 100],
    [160, 45, 120],
    [92, 78.26, 120],
  ])('%d bars at %d rpm stand still under %d flashes', (bars, rpm, flashes) => {
    expect(apparentCycles((bars * rpm) / 60, flashes)).toBeLessThan(1e-4)
  })

  it('its wave gives the capture rate back, though it is folded', () => {
    const chance = chanceOf(9)
    const light = Array.from(
      { length: 240 },
      (_, i) => 100 + 6 * Math.cos(2 * Math.PI * 100 * (i / trueFps) + 1) + chance.normal(0.5),
    )
    const rate = found(lampRate(light, 100, 240))
    expect(Math.abs(rate.captureFps / trueFps - 1)).toBeLessThan(0.0005)
    expect(rate.relativeUncertainty).toBeGreaterThanOrEqual(0.001)
  })

  it('a steady light and a short look are refused', () => {
    const chance = chanceOf(10)
    const steady = Array.from({ length: 240 }, () => 100 + chance.normal(1))
    expect(lampRate(steady.slice(0, 10), 100, 240).measured).toBe(false)
    expect(lampRate(steady, 100, 240).measured).toBe(false)
    expect(lampRate(Array(240).fill(100), 100, 240).measured).toBe(false)
  })
})

describe('a counter', () => {
  it('1200 frames in 5 s of whole steps are 240 fps, known to 1/√6 frame', () => {
    const rate = found(counterRate({ fromFrame: 7, toFrame: 1207, steps: 5, stepSeconds: 1 }, 0))
    expect(rate.captureFps).toBe(240)
    expect(rate.relativeUncertainty).toBeCloseTo(1 / Math.sqrt(6) / 1200, 12)
  })

  it('no frames and no steps are refused', () => {
    expect(counterRate({ fromFrame: 7, toFrame: 7, steps: 5, stepSeconds: 1 }).measured).toBe(false)
    expect(counterRate({ fromFrame: 7, toFrame: 70, steps: 0, stepSeconds: 1 }).measured).toBe(false)
  })
})
