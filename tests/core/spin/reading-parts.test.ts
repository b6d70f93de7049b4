import { describe, expect, it } from 'vitest'
import { readingSchema } from '../../../core/contract/reading.ts'
import type { Estimate } from '../../../core/spin/estimate.ts'
import { readingOf, unreadOf } from '../../../core/spin/reading-of.ts'
import { estimateAt, observationsWith } from './facts.ts'
import { marksOf } from './truth.ts'

const radians = (deg: number) => (deg * Math.PI) / 180

describe('a reading of an estimate', () => {
  const read = (change: Partial<Estimate> = {}, rpm = 2330) => {
    const o = observationsWith()
    return readingOf(marksOf(), estimateAt(rpm, o, change), o)
  }
  it('says rate and sense apart, and 58.25° a frame of 2330 rpm at 240 fps, 6.18 frames a turn', () => {
    const reading = read({}, -2330)
    expect(reading).toMatchObject({
      rpm: expect.closeTo(2330, 9),
      sense: 'counter-clockwise',
      method: 'bearing',
      axis: null,
      flight: null,
      framesUsed: 24,
      window: { fromFrame: 0, toFrame: 23 },
    })
    expect(reading.rotationPerFrameDeg).toBeCloseTo(58.25, 9)
    expect(reading.framesPerRevolution).toBeCloseTo(6.1803, 4)
    expect(reading.candidates).toEqual([
      { rpm: expect.closeTo(2330, 9), sense: 'counter-clockwise', support: 1, plausible: true },
    ])
    expect(() => readingSchema.parse(reading)).not.toThrow()
  })
  it('has a band about it that never falls below nothing', () => {
    const { band, rpm } = read()
    expect(rpm! - band!.lowRpm).toBeCloseTo(band!.highRpm - rpm!, 9)
    expect(band!.level).toBe(0.95)
    expect(read({}, 0.5).band!.lowRpm).toBe(0)
    expect(read({}, 0)).toMatchObject({ rpm: 0, framesPerRevolution: null })
  })
  it('counts a frame once, however many marks are seen in it', () => {
    const o = observationsWith()
    const twice = { ...o, sightings: [...o.sightings.slice(0, 8), ...o.sightings.slice(0, 8)] }
    expect(readingOf(marksOf(), estimateAt(2330, twice), twice).framesUsed).toBe(8)
  })
  const tilted = (tiltDeg: number, uncertaintyDeg: number, change: Partial<Estimate> = {}) =>
    read({
      method: 'sphere',
      rotationRadPerSecond: [0, 244 * Math.sin(radians(tiltDeg)), 244 * Math.cos(radians(tiltDeg))],
      axisUncertaintyRad: radians(uncertaintyDeg),
      ...change,
    })
  it('has the axis as a unit vector with its tilt from the line of sight', () => {
    const { axis } = tilted(30, 2)
    expect(axis).toMatchObject({ x: 0, y: expect.closeTo(0.5, 12), z: expect.closeTo(Math.sqrt(0.75), 12) })
    expect(axis!.tiltDeg).toBeCloseTo(30, 9)
    expect(axis!.uncertaintyDeg).toBeCloseTo(2, 9)
    expect(tilted(150, 2).axis!.tiltDeg).toBeCloseTo(150, 9)
    expect(tilted(30, 2, { rotationRadPerSecond: [0, 0, 0] }).axis).toBeNull()
  })
  it('has the cone that its method knows, else that of two normal components: √(−ln 0.05) = 1.7308 rms', () => {
    expect(tilted(30, 2).axis!.coneDeg).toBeCloseTo(2 * 1.7308, 3)
    expect(tilted(30, 2, { axisConeRad: radians(7) }).axis!.coneDeg).toBeCloseTo(7, 9)
  })
  it('has no sense where twice the axis’s uncertainty reaches past the picture’s plane', () => {
    expect(tilted(84, 2.9).sense).toBe('clockwise')
    expect(tilted(84, 3.1).sense).toBeNull()
    expect(tilted(96, 3.1, { rateRadPerSecond: -244 }).sense).toBeNull()
  })
})

describe('a reading that could not be made', () => {
  const not = { measured: false, reason: 'Why.', tip: 'What to do.' } as const
  it('says why, what to do, where, and from how many frames', () => {
    const marks = marksOf()
    marks.frames = marks.frames.slice(3, 9)
    marks.frames[0]!.seen = []
    expect(unreadOf(marks, not)).toMatchObject({
      window: { fromFrame: 3, toFrame: 8 },
      method: 'bearing',
      flag: 'too-few-frames',
      reasons: ['Why.', 'What to do.'],
      framesUsed: 5,
      rpm: null,
      candidates: [],
      budget: [],
    })
    expect(() => readingSchema.parse(unreadOf(marks, not))).not.toThrow()
  })
  it('is ambiguous where marks contradict each other, and has an empty window of no frames', () => {
    const marks = { ...marksOf(), frames: [] }
    expect(unreadOf(marks, { ...not, contradictory: true })).toMatchObject({
      flag: 'ambiguous',
      window: { fromFrame: 0, toFrame: 0 },
    })
  })
})
