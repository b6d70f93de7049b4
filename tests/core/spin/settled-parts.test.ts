import { describe, expect, it } from 'vitest'
import { settledReading } from '../../../core/spin/settled-reading.ts'
import { sampleReading } from '../../electron/store/sample-reading.ts'

/** 2331.2 rpm clockwise at 240 fps, and what turns one whole turn a frame less or more. */
describe('a reading that a person settled', () => {
  const reading = sampleReading({
    axis: { x: 0.36, y: 0.48, z: 0.8, tiltDeg: 36.87, uncertaintyDeg: 0.5 },
    parts: { topspinRpm: 1000, sidespinRpm: -200, gyroRpm: 50 },
    candidates: [
      { rpm: 2331.2, sense: 'clockwise', support: 1, plausible: true },
      { rpm: 16731.2, sense: 'clockwise', support: 1, plausible: false },
      { rpm: 12068.8, sense: 'counter-clockwise', support: 0.9, plausible: true },
    ],
  })
  const on = (rpm: number, sense: 'clockwise' | 'counter-clockwise') => ({ rpm, sense, reason: 'Seen.' })
  it('the same way keeps its axis, and its parts grow with the rate', () => {
    const chosen = settledReading(reading, on(16731.2, 'clockwise'))
    expect(chosen).toMatchObject({ rpm: 16731.2, sense: 'clockwise', axis: reading.axis })
    const grown = 16731.2 / 2331.2
    expect(chosen.parts).toEqual({
      topspinRpm: expect.closeTo(1000 * grown, 9),
      sidespinRpm: expect.closeTo(-200 * grown, 9),
      gyroRpm: expect.closeTo(50 * grown, 9),
    })
    expect(chosen.band).toMatchObject({ level: reading.band!.level })
    expect((chosen.band!.lowRpm + chosen.band!.highRpm) / 2).toBeCloseTo(16731.2, 9)
  })
  it('the other way turns axis and parts about', () => {
    const chosen = settledReading(reading, on(12068.8, 'counter-clockwise'))
    const turned = -12068.8 / 2331.2
    expect(chosen.axis).toMatchObject({ x: -0.36, y: -0.48, z: -0.8, tiltDeg: 180 - 36.87 })
    expect(chosen.parts!.sidespinRpm).toBeCloseTo(-200 * turned, 9)
    expect(chosen.parts!.gyroRpm).toBeCloseTo(50 * turned, 9)
  })
  it('finds a candidate within half a percent, of the same sense', () => {
    expect(settledReading(reading, on(12068.8 / 1.0049, 'counter-clockwise')).rpm).toBe(12068.8)
    expect(settledReading(reading, on(12068.8 / 1.0051, 'counter-clockwise'))).toBe(reading)
    expect(settledReading(reading, on(12068.8, 'clockwise'))).toBe(reading)
    expect(settledReading(reading, on(12000, 'counter-clockwise'), 0.01).rpm).toBe(12068.8)
  })
  it('finds one whose axis lies across the line of sight, which turns neither way', () => {
    const across = {
      ...reading,
      candidates: [reading.candidates[0]!, { ...reading.candidates[2]!, sense: null }],
    }
    expect(settledReading(across, on(12068.8, 'counter-clockwise')).rpm).toBe(12068.8)
    expect(settledReading({ ...reading, sense: null }, on(12068.8, 'counter-clockwise')).axis).toMatchObject({
      z: 0.8,
      tiltDeg: 36.87,
    })
  })
  it('leaves unsaid what the reading does not say', () => {
    const bare = { ...reading, axis: null, parts: null, rotationPerFrameDeg: null }
    expect(settledReading(bare, on(16731.2, 'clockwise'))).toMatchObject({
      rpm: 16731.2,
      axis: null,
      parts: null,
      rotationPerFrameDeg: null,
      framesPerRevolution: null,
    })
    const none = { ...reading, rpm: null }
    expect(settledReading(none, on(16731.2, 'clockwise'))).toBe(none)
    const unbanded = { ...reading, band: null }
    expect(settledReading(unbanded, on(16731.2, 'clockwise'))).toBe(unbanded)
  })
  it('of a ball that stood still, or comes to, needs no share of nothing', () => {
    const still = {
      ...reading,
      rpm: 0,
      rotationPerFrameDeg: 0,
      candidates: [{ rpm: 0, sense: null, support: 1, plausible: true }, reading.candidates[2]!],
    }
    expect(settledReading(still, on(12068.8, 'counter-clockwise'))).toMatchObject({
      rpm: 12068.8,
      parts: { topspinRpm: -1000, sidespinRpm: 200 },
      rotationPerFrameDeg: null,
    })
    const stops = { ...reading, candidates: [reading.candidates[0]!, { ...still.candidates[0]! }] }
    expect(settledReading(stops, on(0, 'clockwise'))).toMatchObject({
      rpm: 0,
      band: { lowRpm: 0 },
      rotationPerFrameDeg: 0,
      framesPerRevolution: null,
    })
  })
})
