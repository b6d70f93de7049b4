import { describe, expect, it } from 'vitest'
import { fitBearing } from '../../../core/spin/bearing.ts'
import { observationsOf } from '../../../core/spin/observations-of.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { tiltOf } from '../../../core/spin/tilt.ts'
import { degOfRad, radOfDeg } from '../../../core/units/angle.ts'
import { marksOf, type Truth } from './truth.ts'

const tiltShown = (truth: Partial<Truth>): number | null => {
  const observed = observationsOf(marksOf(truth))
  if (!('observations' in observed)) throw new Error(observed.reason)
  const fit = fitBearing(observed.observations)
  if (!fit.measured) throw new Error(fit.reason)
  const { tiltRad } = tiltOf(fit, observed.observations, radOfDeg(25))
  return tiltRad === null ? null : degOfRad(tiltRad)
}

describe('choice of method', () => {
  it('bearing where the axis faces the camera, and says so', () => {
    const reading = readMarks(marksOf({ clickPx: 1 }))
    expect(reading.method).toBe('bearing')
    expect(reading.reasons.join(' ')).toMatch(/The axis faces the camera within \d°/)
  })
  it.each([25, 50, 80])('sphere where it lies %i° off, and the band holds the rate', tiltDeg => {
    const reading = readMarks(marksOf({ clickPx: 1, tiltDeg, frames: 40 }))
    expect(reading.method).toBe('sphere')
    expect(Math.abs(reading.axis!.tiltDeg - tiltDeg)).toBeLessThan(4)
    expect(reading.band!.lowRpm).toBeLessThan(2330)
    expect(reading.band!.highRpm).toBeGreaterThan(2330)
  })
  it('an axis square to the line of sight turns neither way', () => {
    expect(readMarks(marksOf({ clickPx: 1, tiltDeg: 90, frames: 40 })).sense).toBeNull()
  })
  it('directions over several turns stand by themselves', () => {
    const reading = readMarks(marksOf({ kind: 'direction', clickPx: 1 }))
    expect(reading).toMatchObject({ method: 'bearing', flag: 'clear' })
  })
})

describe('the tilt that a bearing fit’s residuals show', () => {
  it('is none where there is none', () => {
    expect(tiltShown({ clickPx: 1, frames: 40 })).toBeNull()
  })
  // First order in the tilt, so good to a few degrees at ten.
  it.each([5, 10])('is about %i° by the wave once a turn', tiltDeg => {
    const shown = tiltShown({ clickPx: 0.3, tiltDeg, frames: 60 })!
    expect(Math.abs(shown - tiltDeg)).toBeLessThan(0.25 * tiltDeg)
  })
})

describe('outliers', () => {
  it('a mark on the wrong side of the ball loses its weight, is named, and leaves the reading alone', () => {
    const marks = marksOf({ kind: 'direction', clickPx: 1, frames: 24 })
    const clean = readMarks(marks)
    const wrong = structuredClone(marks)
    wrong.frames[10]!.seen = [{ mark: 'logo', bearingDeg: 77 }]
    const spoiled = readMarks(wrong)
    expect(Math.abs(spoiled.rpm! - clean.rpm!)).toBeLessThan(2 * clean.standardUncertaintyRpm!)
    expect(spoiled.reasons.join(' ')).toMatch(
      /1 of 24 marks lie too far off to be believed: look at frame 10\./,
    )
  })
  it('honest scatter loses none in 99 of 100 hits', () => {
    let doubted = 0
    for (let seed = 1; seed <= 200; seed++) {
      const observed = observationsOf(marksOf({ kind: 'direction', clickPx: 1, frames: 16, seed }))
      if (!('observations' in observed)) throw new Error(observed.reason)
      const fit = fitBearing(observed.observations)
      if (fit.measured && fit.sightings.some(one => one.weight < 1)) doubted++
    }
    // The scale comes from the same residuals, so that a few more than 1 % are touched.
    expect(doubted).toBeLessThan(12)
  })
})
