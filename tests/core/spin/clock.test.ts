import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { tickContribution } from '../../../core/spin/budget-random.ts'
import { observationsOf } from '../../../core/spin/observations-of.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { fitSphere } from '../../../core/spin/sphere/fit-sphere.ts'
import { marksOf } from './truth.ts'

const errorRpm = (marks: Marks) => readMarks(marks).rpm! - 2330

describe('time, as method.md has it: ignored the rate is wrong, heeded it is right', () => {
  it('a rolling shutter of 6 ms stretches the rate of a ball that falls 4000 px/s by 4000·0.006/540', () => {
    const falling = {
      centre: { xPx: 300, yPx: 50 },
      velocity: { xPxPerSecond: 0, yPxPerSecond: 4000 },
      readoutSeconds: 0.006,
    }
    expect(Math.abs(errorRpm(marksOf(falling)))).toBeLessThan(2)
    const ignored = errorRpm(marksOf({ ...falling, capture: { readoutSeconds: 0 } }))
    // Each mark is seen later by the rows it has fallen: the interval, and so the turn in it, grows by v·r/(H − v·r).
    expect(Math.abs(ignored / 2330 - (4000 * 0.006) / (540 - 4000 * 0.006))).toBeLessThan(0.0015)
  })
  it('a readout that nobody knows is in the budget, and the band still holds the truth', () => {
    const marks = marksOf({
      centre: { xPx: 300, yPx: 50 },
      velocity: { xPxPerSecond: 0, yPxPerSecond: 2000 },
      readoutSeconds: 0.003,
      clickPx: 0.5,
    })
    const { readoutSeconds: _, ...capture } = marks.capture
    const reading = readMarks({ ...marks, capture })
    // Unheeded it is worth 2000·0.003/540, 26 rpm; what remains is what the marks themselves do not tell of it.
    expect(reading.budget.find(line => line.source === 'readout')!.standardUncertaintyRpm).toBeGreaterThan(1)
    expect(reading.band!.lowRpm).toBeLessThan(2330)
    expect(reading.band!.highRpm).toBeGreaterThan(2330)
  })
  it.each([0, 0.3, 1])(
    'a readout of %d intervals that nobody knows leaves the band as true as any',
    share => {
      let misses = 0
      for (let seed = 1; seed <= 60; seed++) {
        const marks = marksOf({
          seed,
          centre: { xPx: 300, yPx: 150 },
          velocity: { xPxPerSecond: 500, yPxPerSecond: 1500 },
          readoutSeconds: share / 240,
          clickPx: 1,
          tiltDeg: 20,
        })
        const { readoutSeconds: _, ...capture } = marks.capture
        const { band } = readMarks({ ...marks, capture })
        if (!band || band.lowRpm > 2330 || band.highRpm < 2330) misses++
      }
      // Of 60 draws at 5 %, 99.9 % of all counts are at most 9 (binomial law).
      expect(misses).toBeLessThanOrEqual(9)
    },
  )
  it('dropped frames keep their gap; closed up, the rate would jump', () => {
    const timeOf = (i: number) => (i < 8 ? i : i + 5) / 240
    expect(Math.abs(errorRpm(marksOf({ timeOf, writtenTime: t => t })))).toBeLessThan(0.01)
    expect(Math.abs(errorRpm(marksOf({ timeOf })))).toBeGreaterThan(50)
  })
  it('times rounded to 1/600 s are an even clock’s, and no tick is left in the band', () => {
    const marks = marksOf({ writtenTime: t => Math.round(t * 600) / 600, capture: { tickSeconds: 1 / 600 } })
    const reading = readMarks(marks)
    expect(Math.abs(reading.rpm! - 2330)).toBeLessThan(0.01)
    expect(reading.budget.some(line => line.source === 'timestamp tick')).toBe(false)
  })
  it('uneven times rounded to a tick carry rate·tick/√12 a frame into the budget', () => {
    const timeOf = (i: number) => (i + 0.3 * Math.sin(2.3 * i)) / 240
    const marks = marksOf({
      clickPx: 0.3,
      timeOf,
      writtenTime: t => Math.round(t * 1000) / 1000,
      capture: { tickSeconds: 1 / 1000 },
    })
    const reading = readMarks(marks)
    const tick = reading.budget.find(line => line.source === 'timestamp tick')!
    // Least squares over n even frames: rate·tick/√12 · √(12/(n³))/interval.
    const expected = (2330 * 0.001 * 240 * Math.sqrt(12 / 24 ** 3)) / Math.sqrt(12)
    expect(tick.standardUncertaintyRpm / expected).toBeGreaterThan(0.8)
    expect(tick.standardUncertaintyRpm / expected).toBeLessThan(1.25)
    expect(Math.abs(reading.rpm! - 2330)).toBeLessThan(4 * reading.standardUncertaintyRpm!)
  })
  it('two marks of a frame share what its time was rounded by: the second tells nothing more', () => {
    const timeOf = (i: number) => (i + 0.3 * Math.sin(2.3 * i)) / 240
    const ratios = Array.from({ length: 30 }, (_, seed) => {
      const observed = observationsOf(
        marksOf({
          seed,
          frames: 24,
          clickPx: 0.2,
          radiusPx: 60,
          tiltDeg: 25,
          marks: [20, 140].map(startDeg => ({
            id: `at ${startDeg}`,
            symmetryOrder: 1,
            offsetShare: 0.6,
            startDeg,
          })),
          timeOf: i => timeOf(i) + seed * 0.000_37,
          writtenTime: t => Math.round(t * 1000) / 1000,
          capture: { tickSeconds: 1 / 1000, exposureSeconds: 0.0001 },
        }),
      )
      if (!('observations' in observed)) throw new Error(observed.reason)
      const o = observed.observations
      const fit = fitSphere(o)
      if (!fit.measured) throw new Error(fit.reason)
      return fit.scatterUncertaintyRadPerSecond / tickContribution(fit, o).standardUncertainty
    })
    // Rounding is worth rate·tick/√12·ρ = 2.5 px here, clicks 0.2: residuals show the ticks, less what the unknowns take
    // of two dozen of them. Were they each mark's own, the scatter would speak of 1/√2 of that: of 0.71 at the most.
    const mean = ratios.reduce((sum, ratio) => sum + ratio / ratios.length, 0)
    expect(mean).toBeGreaterThan(Math.SQRT1_2)
    expect(mean).toBeLessThan(1.15)
  })
  it('a constant exposure leaves the rate alone and sets the smear’s limit', () => {
    const short = readMarks(marksOf({ clickPx: 1, capture: { exposureSeconds: 1 / 4000 } }))
    const long = readMarks(marksOf({ clickPx: 1, capture: { exposureSeconds: 1 / 500 } }))
    // What is left is that a smear makes a click along a mark's way count for less.
    expect(Math.abs(long.rpm! - short.rpm!)).toBeLessThan(0.5 * long.standardUncertaintyRpm!)
    expect(long.ceiling).toEqual({ rpm: 3750, limit: 'smear' })
  })
  it('frame times at quite another pace than the capture rate are said to be', () => {
    const marks = marksOf({ timeOf: i => i / 240, writtenTime: t => 8 * t })
    expect(readMarks(marks).reasons.join(' ')).toMatch(
      /frame times run at 30 frames a second, the camera at 240/,
    )
  })
})
