import { describe, expect, test } from 'vitest'
import { settledReading } from '../../../core/spin/settled-reading.ts'
import { sampleReading } from '../../electron/store/sample-reading.ts'

/** 2331.2 rpm at 240 fps; the other candidate turns one whole turn a frame less: 14400 − 2331.2 the other way. */
const reading = sampleReading({
  method: 'surface',
  axis: { x: 0, y: 0.6, z: 0.8, tiltDeg: 36.87, uncertaintyDeg: 0.5 },
  parts: { topspinRpm: 1000, sidespinRpm: -200, gyroRpm: 0 },
  candidates: [
    { rpm: 2331.2, sense: 'clockwise', support: 1, plausible: true },
    { rpm: 12068.8, sense: 'counter-clockwise', support: 0.9, plausible: true },
  ],
})
const settled = { rpm: 12068.8, sense: 'counter-clockwise' as const, reason: 'It was sliced.' }

describe('a reading that a person settled', () => {
  test('stands at the chosen rate with the band as wide as before and the axis turned about', () => {
    const chosen = settledReading(reading, settled)
    expect(chosen).toMatchObject({ rpm: 12068.8, sense: 'counter-clockwise', counted: null })
    expect(chosen.band!.highRpm - chosen.band!.lowRpm).toBeCloseTo(18.4, 9)
    expect(chosen.axis).toMatchObject({ y: -0.6, z: -0.8, tiltDeg: 180 - 36.87 })
    // 12068.8 rpm at 240 fps: 360 · 12068.8 / (60 · 240) degrees a frame (method, arithmetic).
    expect(chosen.rotationPerFrameDeg).toBeCloseTo(301.72, 1)
    expect(chosen.framesPerRevolution).toBeCloseTo(1.193, 3)
    expect(chosen.parts!.topspinRpm).toBeCloseTo((-1000 * 12068.8) / 2331.2, 6)
  })

  test('is the same when its own rate was chosen, when nothing was, and when no candidate is near', () => {
    expect(settledReading(reading, { ...settled, rpm: 2331.2, sense: 'clockwise' })).toBe(reading)
    expect(settledReading(reading, null)).toBe(reading)
    expect(settledReading(reading, { ...settled, rpm: 9000 })).toBe(reading)
  })
})
