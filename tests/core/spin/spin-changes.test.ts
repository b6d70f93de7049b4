import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { readingDocumentOf, readMarks } from '../../../core/spin/read-marks.ts'
import { marksOf, type Truth } from './truth.ts'

const losing = { kind: 'direction', clickPx: 1, frames: 60, rpmPerSecond: -1500 } as const

/** Two flights, the second in the frames after the first, the ball thrown back the other way. */
const struck = (before: Partial<Truth>, after: Partial<Truth>): Marks => {
  const velocity = { xPxPerSecond: -2000, yPxPerSecond: 0 }
  const one = marksOf({
    rpm: -1500,
    frames: 14,
    clickPx: 1,
    velocity,
    centre: { xPx: 500, yPx: 250 },
    ...before,
  })
  const two = marksOf({
    frames: 16,
    clickPx: 1,
    seed: 3,
    velocity: { xPxPerSecond: 2500, yPxPerSecond: -300 },
    centre: { xPx: 385, yPx: 250 },
    ...after,
  })
  return {
    ...one,
    frames: [...one.frames, ...two.frames.map(frame => ({ ...frame, index: frame.index + 14 }))],
  }
}

describe('a spin that changes in the window', () => {
  it('steady spin brings no warning', () => {
    const document = readingDocumentOf(marksOf({ ...losing, rpmPerSecond: 0 }), '0')
    expect(document.warnings).toEqual([])
  })
  it('a loss of 369 rpm over the window is warned of with its size', () => {
    const { warnings, readings } = readingDocumentOf(marksOf(losing), '0')
    expect(warnings.map(warning => warning.code)).toEqual(['spin-changes'])
    const [, rpm] = /The spin falls by (\d+) rpm/.exec(warnings[0]!.message)!
    // 1500 rpm a second over 59 frames at 240 fps.
    expect(Math.abs(Number(rpm) - (1500 * 59) / 240)).toBeLessThan(20)
    expect(readings[0]!.reasons).toContain(warnings[0]!.message)
  })
  it.each([1, -1])('a tilted ball that turns either way (%i) loses what it loses', sense => {
    const tilted = marksOf({
      ...losing,
      kind: 'point',
      tiltDeg: 40,
      rpm: 2330 * sense,
      rpmPerSecond: -1500 * sense,
    })
    const { warnings, readings } = readingDocumentOf(tilted, '0')
    expect(readings[0]!.method).toBe('sphere')
    const [, rpm] = /The spin falls by (\d+) rpm/.exec(warnings[0]!.message)!
    // 1500 rpm a second over the time from the first sighting to the last, 59 frames at 240 fps.
    expect(Math.abs(Number(rpm) - (1500 * 59) / 240)).toBeLessThan(20)
    const first = readMarks({ ...tilted, withDecay: true })
    expect(Math.abs(first.rpm! - 2330)).toBeLessThan(3 * first.standardUncertaintyRpm!)
  })
  it('a loss of 4 % a second over 52 frames at 60 fps hides neither the rate nor its alias', () => {
    const { candidates } = readMarks(
      marksOf({ fps: 60, frames: 52, clickPx: 1, radiusPx: 60, tiltDeg: 20, rpm: -3316, rpmPerSecond: 133 }),
    )
    // In the middle of the window it turns at 3316 − 133·25.5/60 = 3259 rpm, which even frames cannot tell from 341.
    const rates = candidates.map(({ rpm, sense }) => Math.round((sense === 'clockwise' ? rpm : -rpm) / 4))
    expect(rates).toContain(Math.round(-3259 / 4))
    expect(rates).toContain(Math.round(341 / 4))
  })
  it('the steady reading is the rate in the middle of the window', () => {
    const reading = readMarks(marksOf(losing))
    expect(Math.abs(reading.rpm! - (2330 - (1500 * 29.5) / 240))).toBeLessThan(
      3 * reading.standardUncertaintyRpm!,
    )
  })
  it('on request the rate is that at the first mark, and no warning is left', () => {
    const { readings, warnings } = readingDocumentOf({ ...marksOf(losing), withDecay: true }, '0')
    const reading = readings[0]!
    expect(warnings).toEqual([])
    expect(Math.abs(reading.rpm! - 2330)).toBeLessThan(3 * reading.standardUncertaintyRpm!)
    expect(reading.reasons.join(' ')).toMatch(/falls by 1[45]\d\d rpm a second/)
  })
  it('on request, the band holds the first rate in 95 of 100 hits', () => {
    let held = 0
    for (let seed = 1; seed <= 200; seed++) {
      const { band } = readMarks({
        ...marksOf({ ...losing, rpmPerSecond: -300, frames: 30, seed }),
        withDecay: true,
      })
      if (band!.lowRpm < 2330 && 2330 < band!.highRpm) held++
    }
    // 95 % of 200 is 190 ± 3; nuisances that this scene has none of make the band a little wide.
    expect(held).toBeGreaterThan(182)
  })
})

describe('a contact inside the window', () => {
  it('is found, and the window split into two readings', () => {
    const { readings, warnings } = readingDocumentOf(struck({}, {}), '0')
    expect(warnings.map(warning => warning.code)).toContain('contact-inside')
    expect(readings.map(({ window }) => [window.fromFrame, window.toFrame])).toEqual([
      [0, 13],
      [14, 29],
    ])
    expect(readings.map(({ sense }) => sense)).toEqual(['counter-clockwise', 'clockwise'])
    expect(Math.abs(readings[0]!.rpm! - 1500)).toBeLessThan(3 * readings[0]!.standardUncertaintyRpm!)
    expect(Math.abs(readings[1]!.rpm! - 2330)).toBeLessThan(3 * readings[1]!.standardUncertaintyRpm!)
  })
  it('the one reading of the whole has no figure and says where the ball is struck', () => {
    const reading = readMarks(struck({}, {}))
    expect(reading.rpm).toBeNull()
    expect(reading.flag).toBe('ambiguous')
    expect(reading.reasons[0]).toMatch(
      /struck between frames 13 and 14: 1\d\d\d rpm counter-clockwise before, 23\d\d rpm clockwise after/,
    )
  })
  it('works from directions alone', () => {
    const { readings } = readingDocumentOf(struck({ kind: 'direction' }, { kind: 'direction' }), '0')
    expect(readings).toHaveLength(2)
  })
  it('one steady flight is never split, over 60 noisy hits', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const marks = marksOf({ seed, clickPx: 2, frames: 30, tiltDeg: seed })
      expect(readingDocumentOf(marks, '0').readings).toHaveLength(1)
    }
  })
})
