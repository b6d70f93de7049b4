import { describe, expect, it } from 'vitest'
import { readMarks } from '../../core/spin/read-marks.ts'
import { marksOf } from '../core/spin/truth.ts'

/**
 * A record on a turntable is a rate that everyone can check: 33 1/3 and 45 rpm (IEC 60098, rated speeds).
 * Seen from above, filmed at 30 and 240 fps, a dot near the label clicked thirty times a second for two seconds, 1 px of error.
 */
describe('a turntable', () => {
  it.each([
    [100 / 3, 30],
    [45, 30],
    [100 / 3, 240],
    [45, 240],
  ])('%d rpm filmed at %i fps', (rpm, fps) => {
    const every = fps / 30
    const marks = marksOf({
      rpm,
      fps,
      frames: 60,
      radiusPx: 200,
      clickPx: 1,
      timeOf: i => (every * i) / fps,
    })
    marks.frames.forEach((frame, i) => {
      frame.index = every * i
    })
    const reading = readMarks(marks)
    expect(reading.rpm!).toBeGreaterThan(rpm * 0.998)
    expect(reading.rpm!).toBeLessThan(rpm * 1.002)
    expect(reading.band!.lowRpm).toBeLessThan(rpm)
    expect(reading.band!.highRpm).toBeGreaterThan(rpm)
    // What thirty frames a second cannot tell apart is 1800 rpm away, and comes after.
    expect(reading.candidates[0]!.rpm).toBe(reading.rpm)
  })
  it('a turn and a half of a line that repeats twice, in every frame at 30 fps', () => {
    const reading = readMarks(
      marksOf({
        rpm: 45,
        fps: 30,
        frames: 60,
        kind: 'direction',
        clickPx: 1,
        radiusPx: 200,
        maxRpm: 400,
        marks: [{ id: 'line', symmetryOrder: 2, offsetShare: 0.6, startDeg: 0 }],
      }),
    )
    expect(reading.flag).toBe('clear')
    expect(Math.abs(reading.rpm! - 45)).toBeLessThan(0.1)
  })
})
