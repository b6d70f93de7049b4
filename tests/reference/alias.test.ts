import { describe, expect, it } from 'vitest'
import { foldedRate } from '../../core/spin/alias.ts'
import {
  degPerFrameOfRpm,
  framesPerRevolutionOfRpm,
  radPerSecondOfRpm,
  rpmOfRadPerSecond,
} from '../../core/units/rate.ts'

const foldedRpm = (rpm: number, fps: number, order: number) =>
  rpmOfRadPerSecond(foldedRate(radPerSecondOfRpm(rpm), fps, order))

/**
 * Record-player discs: bars that stand still under lamps on 60 Hz mains (120 flashes a second) or 50 Hz
 * (100). Common in the trade; speeds of IEC 60098. By arithmetic: flashes · 60 / bars = rpm.
 */
describe('stroboscope discs stand still in the alias code', () => {
  it.each([
    [100 / 3, 216, 120],
    [100 / 3, 180, 100],
    [45, 160, 120],
    [78.26, 92, 120],
  ])('%d rpm, %i bars, %i flashes a second', (rpm, bars, flashes) => {
    // 78.26 is itself rounded to 0.005 rpm.
    expect(Math.abs(foldedRpm(rpm, flashes, bars))).toBeLessThan(0.005)
  })
  it('a disc that runs 0.3 % fast creeps forward at just that', () => {
    expect(foldedRpm((100 / 3) * 1.003, 120, 216)).toBeCloseTo((100 / 3) * 0.003, 9)
  })
})

/** Closed form: rpm − 60·f/m·round(rpm·m/(60·f)). */
describe('folded rates by arithmetic', () => {
  it.each([
    [1200, 60, 120, 3, 1200, -600],
    [2048, 120, 102.4, 3.5156, 2048, -1552],
    [2330, 60, 233, 1.5451, -1270, 530],
    [2330, 240, 58.25, 6.1803, 2330, 2330],
  ])('%i rpm at %i fps', (rpm, fps, degrees, frames, once, twice) => {
    expect(degPerFrameOfRpm(rpm, fps)).toBeCloseTo(degrees, 9)
    expect(framesPerRevolutionOfRpm(rpm, fps)).toBeCloseTo(frames, 4)
    expect(foldedRpm(rpm, fps, 1)).toBeCloseTo(once, 6)
    expect(foldedRpm(rpm, fps, 2)).toBeCloseTo(twice, 6)
  })
})
