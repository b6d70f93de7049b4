import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { bandOf } from '../../../core/spin/band.ts'
import { fitBearing } from '../../../core/spin/bearing.ts'
import { budgetOf } from '../../../core/spin/budget.ts'
import { chooseMethod } from '../../../core/spin/choose.ts'
import type { Estimate } from '../../../core/spin/estimate.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { observationsOf } from '../../../core/spin/observations-of.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { fitSphere } from '../../../core/spin/sphere/fit-sphere.ts'
import { marksOf } from './truth.ts'

const observed = (marks: Marks): Observations => {
  const result = observationsOf(marks)
  if (!('observations' in result)) throw new Error(result.reason)
  return result.observations
}
const measured = (result: ReturnType<typeof fitBearing>): Estimate => {
  if (!result.measured) throw new Error(result.reason)
  return result
}
const line = (marks: Marks, source: string) =>
  readMarks(marks).budget.find(one => one.source === source)?.standardUncertaintyRpm ?? 0

describe('∂rate/∂input against moving the input and fitting anew', () => {
  const cases = [
    ['bearing', fitBearing, marksOf({ frames: 14, clickPx: 1 })],
    ['sphere', fitSphere, marksOf({ frames: 24, clickPx: 0.5, tiltDeg: 40 })],
  ] as const
  for (const [name, fitOf, marks] of cases) {
    const o = observed(marks)
    const fit = measured(fitOf(o))
    const rateWith = (change: (o: Observations) => void) => {
      const moved = structuredClone(o)
      change(moved)
      return measured(fitOf(moved, fit.rateRadPerSecond)).rateRadPerSecond
    }
    /** Fits answer a little to their own weights as well: a tenth of the largest slope is let through. */
    const largest = Math.max(...fit.sightings.map(one => Math.hypot(one.ratePerXPx, one.ratePerYPx)))
    it.each([0, 5, 11])(`${name}: sighting %i moved by 0.1 px`, k => {
      const slope = (along: 'xPx' | 'yPx') => {
        const step = (by: number) =>
          rateWith(moved => {
            const sighting = moved.sightings[k]!
            if (sighting.kind === 'point') sighting[along] += by
          })
        return (step(0.1) - step(-0.1)) / 0.2
      }
      expect(Math.abs(slope('xPx') - fit.sightings[k]!.ratePerXPx)).toBeLessThan(0.1 * largest)
      expect(Math.abs(slope('yPx') - fit.sightings[k]!.ratePerYPx)).toBeLessThan(0.1 * largest)
    })
    it(`${name}: a frame’s time moved by 20 µs is the phase −rate·dt`, () => {
      const step = (by: number) =>
        rateWith(moved => {
          moved.frames[3]!.timeSeconds += by
        })
      const slope = (step(2e-5) - step(-2e-5)) / 4e-5
      const expected = -fit.rateRadPerSecond * fit.sightings[3]!.ratePerPhaseRad
      expect(Math.abs(slope / expected - 1)).toBeLessThan(0.1)
    })
  }
})

describe('the budget', () => {
  it('marking scatter from residuals is that of the straight line: s·√(12/(n(n²−1)))·f/(2π·ρ)', () => {
    const marks = marksOf({ frames: 60, clickPx: 2 })
    const reading = readMarks(marks)
    const scatter = Math.hypot(line(marks, 'marking scatter'), line(marks, 'pixel grid'))
    const closed = (2 / (0.6 * 36)) * Math.sqrt(12 / (60 * (60 ** 2 - 1))) * 240 * (30 / Math.PI)
    // Sixty residuals know their scatter to 9 %.
    expect(scatter / closed).toBeGreaterThan(0.75)
    expect(scatter / closed).toBeLessThan(1.3)
    expect(reading.effectiveDof!).toBeGreaterThan(20)
  })
  it('is never narrower than the pixel grid', () => {
    const exact = marksOf({ frames: 12 })
    const grid = line(exact, 'pixel grid')
    const closed = (1 / Math.sqrt(12) / (0.6 * 36)) * Math.sqrt(12 / (12 * 143)) * 240 * (30 / Math.PI)
    expect(grid / closed).toBeCloseTo(1, 1)
    expect(readMarks(exact).standardUncertaintyRpm!).toBeGreaterThanOrEqual(grid)
  })
  it('the capture rate is relative and shared by all hits of a camera', () => {
    const marks = marksOf({ capture: { relativeUncertainty: 0.002 } })
    const capture = readMarks(marks).budget.find(one => one.source === 'capture rate')!
    expect(capture.standardUncertaintyRpm).toBeCloseTo(2330 * 0.002, 2)
    expect(capture).toMatchObject({ kind: 'systematic', sharedByHits: true })
  })
  it('a nominal capture rate has the nominal tolerance, 0.1 % rectangular', () => {
    const marks = marksOf({ capture: { relativeUncertainty: undefined } })
    expect(line(marks, 'capture rate')).toBeCloseTo((2330 * 0.001) / Math.sqrt(3), 2)
  })
  it('with few marks the stated click error stands in, and its band is the normal one', () => {
    const marks = marksOf({
      frames: 5,
      clickPx: 1,
      statedClickPx: 1,
      capture: { exposureSeconds: 1 / 8000 },
    })
    const reading = readMarks(marks)
    expect(reading.reasons.join(' ')).toMatch(/stated click error, [01]\.\d px/)
    expect(reading.effectiveDof!).toBeGreaterThan(30)
    const half = (reading.band!.highRpm - reading.band!.lowRpm) / 2
    expect(half / reading.standardUncertaintyRpm!).toBeCloseTo(2.0, 1)
  })
  it('a stated click error that the residuals refute gives way to them', () => {
    const reading = readMarks(marksOf({ frames: 14, clickPx: 2, statedClickPx: 0.4 }))
    expect(reading.reasons.join(' ')).not.toMatch(/stated click error/)
    expect(Math.abs(reading.rpm! - 2330)).toBeLessThan(3 * reading.standardUncertaintyRpm!)
  })
  it('smear widens a stated scatter by rate·exposure/√12 a sighting', () => {
    const o = observed(
      marksOf({ frames: 8, clickPx: 1, statedClickPx: 1, capture: { exposureSeconds: 1 / 1000 } }),
    )
    const fit = measured(fitBearing(o))
    const smear = budgetOf(fit, o).find(one => one.source === 'smear')!
    const leverage = Math.hypot(...fit.sightings.map(one => one.ratePerPhaseRad))
    expect(smear.standardUncertainty).toBeCloseTo(
      (leverage * fit.rateRadPerSecond * 0.001) / Math.sqrt(12),
      9,
    )
  })
  it('an outline off at the first frame, or at the last, and in a line between moves the rate by what is budgeted', () => {
    const o = observed(marksOf({ frames: 9, statedClickPx: 1 }))
    const fit = measured(fitBearing(o))
    const budgeted = budgetOf(fit, o).find(one => one.source === 'outline centre and radius')!
    const shifted = (along: 'xPx' | 'yPx', share: (i: number) => number) => {
      const moved = structuredClone(o)
      moved.frames.forEach((frame, i) => {
        frame.outline![along] += 0.1 * share(i)
      })
      return (measured(fitBearing(moved)).rateRadPerSecond - fit.rateRadPerSecond) / 0.1
    }
    const ends = [(i: number) => 1 - i / 8, (i: number) => i / 8]
    const all = ends.flatMap(end => [shifted('xPx', end), shifted('yPx', end)])
    // Three rim clicks of 1 px put the centre within √(2/3) px a coordinate.
    expect(budgeted.standardUncertainty / (Math.hypot(...all) * Math.sqrt(2 / 3))).toBeCloseTo(1, 2)
  })
  it('parts that rest on one estimate of the click error know no more together than it does', () => {
    const part = (standardUncertainty: number, degreesOfFreedom: number, withScatter: boolean) => ({
      source: 'any',
      standardUncertainty,
      degreesOfFreedom,
      kind: 'random' as const,
      sharedByHits: false,
      withScatter,
    })
    // One s² with ν = 10 scales both: so it does their sum. On their own, (G.2b): 5⁴/(3⁴/10 + 4⁴/10).
    expect(bandOf([part(3, 10, true), part(4, 10, true)]).degreesOfFreedom).toBeCloseTo(10, 9)
    expect(bandOf([part(3, 10, true), part(4, 10, false)]).degreesOfFreedom).toBeCloseTo(6250 / 337, 9)
  })
  it('adds up as the root of the sum of squares, with the degrees of freedom of its doubtful part', () => {
    const o = observed(marksOf({ frames: 10, clickPx: 1 }))
    const fit = chooseMethod(o)
    if (!fit.measured) throw new Error(fit.reason)
    const budget = budgetOf(fit, o)
    const band = bandOf(budget)
    expect(band.standardUncertainty).toBeCloseTo(
      Math.hypot(...budget.map(one => one.standardUncertainty)),
      12,
    )
    const random = budget.filter(one => one.kind === 'random')
    const alone = bandOf(random)
    expect(alone.degreesOfFreedom).toBeCloseTo(fit.scatter.degreesOfFreedom, 6)
    expect(band.degreesOfFreedom).toBeGreaterThan(alone.degreesOfFreedom)
  })
})
