import { describe, expect, it } from 'vitest'
import { ballVelocity } from '../../../core/spin/ball-velocity.ts'
import { budgetOf } from '../../../core/spin/budget.ts'
import type { Estimate, SightingFit } from '../../../core/spin/estimate.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { estimateAt, fitWith, observationsWith } from './facts.ts'

/**
 * Each line by the law of propagation (JCGM 100:2008, (10) and (16)), by hand, for fits whose ∂rate/∂input are
 * plain numbers: of three sightings in frames 0, 1 and 2, one phase up, one not, one down.
 */
const phases = [-10, 0, 10]
const fits = (change: (k: number) => Partial<SightingFit> = () => ({})): SightingFit[] =>
  phases.map((ratePerPhaseRad, k) => fitWith({ timeSeconds: k / 240, ratePerPhaseRad, ...change(k) }))
const seen = (change: Partial<Observations> = {}, capture: Partial<Observations['capture']> = {}) => {
  const o = observationsWith(change)
  return {
    ...o,
    sightings: change.sightings ?? o.sightings.slice(0, 3),
    capture: { ...o.capture, ...capture },
  }
}
const stated = (px: number) => ({ px, from: 'stated' as const, degreesOfFreedom: 50, redundancy: 1 })
const lines = (o: Observations, change: Partial<Estimate> = {}) =>
  Object.fromEntries(
    budgetOf(
      estimateAt(2330, o, { method: 'sphere', scatter: stated(1), sightings: fits(), ...change }),
      o,
    ).map(line => [line.source, line.standardUncertainty]),
  )
const rate = (2330 * Math.PI) / 30
const pointsAt = (ys: number[]) =>
  ys.map((yPx, frame) => ({ kind: 'point' as const, frame, mark: 0, xPx: 300, yPx, smearArcRad: null }))

describe('the pixel grid, 1/√12 px of each', () => {
  it('of a place by both its coordinates, of a direction at its radius', () => {
    const placed = fits(k => ({ ratePerXPx: [3, 0, 0][k]!, ratePerYPx: [4, 0, 12][k]! }))
    // (3, 4) is 5; nothing of (0, 0) is the phase over its radius, 0; 12: √(25 + 144) = 13.
    expect(lines(seen(), { sightings: placed })['pixel grid']).toBeCloseTo(13 / Math.sqrt(12), 12)
    // Two directions of ±10 rad/s a radian at 36 px: √2·10/36.
    expect(lines(seen())['pixel grid']).toBeCloseTo((Math.SQRT2 * 10) / 36 / Math.sqrt(12), 12)
    expect(lines(seen(), { sightings: fits(() => ({ pxPerRad: 0 })) })['pixel grid']).toBeUndefined()
  })
})

describe('time', () => {
  it('smear: a click anywhere in the exposure, while the mark turns and flies', () => {
    expect(lines(seen()).smear).toBeUndefined()
    const exposed = seen({}, { exposureSeconds: 0.001 })
    expect(lines(exposed).smear).toBeCloseTo((0.001 / Math.sqrt(12)) * Math.SQRT2 * 10 * rate, 9)
    const frames = exposed.frames.map(frame => ({
      ...frame,
      outline: { xPx: 300 + 500 * frame.timeSeconds, yPx: 260 - 200 * frame.timeSeconds, radiusPx: 36 },
    }))
    const flying = fits(k => ({ ratePerXPx: [0, 2, 0][k]!, ratePerYPx: [0, 1, 0][k]! }))
    const expected = Math.hypot(Math.SQRT2 * 10 * rate, 2 * 500 - 200)
    expect(lines({ ...exposed, frames }, { sightings: flying }).smear).toBeCloseTo(
      (0.001 / Math.sqrt(12)) * expected,
      9,
    )
  })
  it('a tick: common to the marks of a frame, on its own from frame to frame', () => {
    const ticked = seen({}, { tickSeconds: 0.002 })
    const unit = (0.002 / Math.sqrt(12)) * rate
    expect(lines(ticked)['timestamp tick']).toBeCloseTo(unit * Math.SQRT2 * 10, 9)
    // All three in one frame: −10 + 0 + 10 is nothing; two of them in another: 10 and 10.
    const inFrames = (places: number[]) => ({
      ...ticked,
      sightings: ticked.sightings.map((sighting, k) => ({ ...sighting, frame: places[k]! })),
    })
    expect(lines(inFrames([4, 4, 4]))['timestamp tick']).toBeUndefined()
    expect(lines(inFrames([4, 9, 9]))['timestamp tick']).toBeCloseTo(unit * Math.SQRT2 * 10, 9)
  })
  it('readout: its own uncertainty, a tenth, or half an interval, by the rows', () => {
    const rows = { sightings: pointsAt([54, 270, 216]) }
    // (−10·54 + 10·216)/540 = 3.
    expect(lines(seen(rows, { readoutSeconds: 0.004, readoutUncertaintySeconds: 1e-4 })).readout).toBeCloseTo(
      3 * rate * 1e-4,
      9,
    )
    expect(lines(seen(rows, { readoutSeconds: 0.004 })).readout).toBeCloseTo(3 * rate * 4e-4, 9)
    expect(lines(seen(rows, { readoutSeconds: null })).readout).toBeCloseTo((3 * rate) / 480, 9)
    expect(lines(seen(rows, { readoutSeconds: 0.004 }), { readoutRadPerSecond: 0.7 }).readout).toBe(0.7)
  })
  it('readout: a direction is read at its outline’s row', () => {
    const o = seen({}, { readoutSeconds: 0.004 })
    const frames = o.frames.map((frame, i) => ({ ...frame, outline: { ...frame.outline!, yPx: 54 * i } }))
    // (0·−10 + 108·10)/540 = 2.
    expect(lines({ ...o, frames }).readout).toBeCloseTo(2 * rate * 4e-4, 9)
  })
})

describe('equipment', () => {
  it('capture rate: relative, or what is assumed where nobody says', () => {
    expect(lines(seen({}, { relativeUncertainty: 0.002 }))['capture rate']).toBeCloseTo(rate * 0.002, 9)
    expect(lines(seen({}, { relativeUncertainty: null }))['capture rate']).toBeCloseTo(
      (rate * 0.001) / Math.sqrt(3),
      9,
    )
    expect(lines(seen({}, { relativeUncertainty: 0 }))['capture rate']).toBeUndefined()
  })
  it('line of sight: what a sphere fit says; of a bearing fit what the tilt lets in', () => {
    expect(lines(seen(), { lineOfSightRadPerSecond: 0.3 })['line of sight']).toBe(0.3)
    expect(lines(seen())['line of sight']).toBeUndefined()
    const o = seen({}, { focalLengthPx: 1000 })
    const frames = o.frames.map((frame, i) => ({
      ...frame,
      outline: { xPx: 300 + 15 * i, yPx: 260 + 20 * i, radiusPx: 36 },
    }))
    // 10·(30, 40)/1000: 0.5 along both.
    const bearing = { method: 'bearing' as const, tiltPriorRad: 0.1 }
    expect(lines({ ...o, frames }, bearing)['line of sight']).toBeCloseTo(0.1 * 0.5, 12)
    const { tiltPriorRad: _, ...assuming } = bearing
    expect(lines({ ...o, frames }, assuming)['line of sight']).toBeCloseTo(((25 * Math.PI) / 180) * 0.5, 12)
    // Nobody knows the lens: half the picture's width over the tangent 0.45, 480/0.45 = 1067 px.
    const open = { ...o, frames, capture: { ...o.capture, focalLengthPx: null } }
    expect(lines(open, bearing)['line of sight']).toBeCloseTo((0.1 * 0.5 * 1000 * 0.45) / 480, 12)
  })
  it('a pattern in depth and a tilt are their methods’', () => {
    expect(lines(seen(), { patternRadPerSecond: 0.2 })['pattern in depth']).toBe(0.2)
    expect(lines(seen())['pattern in depth']).toBeUndefined()
    expect(lines(seen())['axis tilt']).toBeUndefined()
    const turning = seen()
    turning.sightings = turning.sightings.map((one, k) => ({ ...one, kind: 'direction', bearingRad: k }))
    expect(lines(turning, { method: 'bearing' })['axis tilt']).toBeGreaterThan(0)
  })
})

describe('outlines', () => {
  const moved = fits(k => ({
    ratePerXPx: [4, 0, -1][k]!,
    ratePerYPx: [0, 3, 0][k]!,
    ratePerRadiusPx: [0, 0, 6][k]!,
  }))
  it('what a sphere fit says of them', () => {
    expect(lines(seen(), { outlineRadPerSecond: 0.4 })['outline centre and radius']).toBe(0.4)
  })
  it('one error at the first sighting, another at the last, a straight line between', () => {
    // x: 4 at the first, −1 at the last; y: 3 in the middle, half to either; radius: 6 at the last.
    const centre = Math.hypot(4, -1, 1.5, 1.5)
    const expected = (clickPx: number) => clickPx * Math.hypot(centre * Math.sqrt(2 / 3), 6 / Math.sqrt(3))
    const of = (o: Observations, change: Partial<Estimate> = {}) =>
      lines(o, { sightings: moved, ...change })['outline centre and radius']
    expect(of(seen())).toBeCloseTo(expected(1), 9)
    // Nobody's study: the scatter stands in, never below the pixel grid.
    expect(of(seen({ clickPx: null }), { scatter: stated(2) })).toBeCloseTo(expected(2), 9)
    expect(of(seen({ clickPx: null }), { scatter: stated(0.1) })).toBeCloseTo(expected(1 / Math.sqrt(12)), 9)
  })
})

it('spin decay: 5 % a second, and none where the fit lets the spin change', () => {
  // Σ ∂rate/∂phase·½(t − t_middle)² of (−10, 0, 30) at ∓1/240 s: 20·½/240².
  const bent = fits(k => ({ ratePerPhaseRad: [-10, 0, 30][k]! }))
  expect(lines(seen(), { sightings: bent })['spin decay']).toBeCloseTo((0.05 * rate * 10) / 240 ** 2, 12)
  expect(lines(seen(), { sightings: bent, changeRadPerSecond2: 3 })['spin decay']).toBeUndefined()
})

describe('residuals hold marking, grid, tick and smear at once', () => {
  const from = (u: number, capture: Partial<Observations['capture']> = {}) => {
    const o = seen({}, capture)
    const change = {
      method: 'sphere' as const,
      scatter: { px: 1, from: 'residuals' as const, degreesOfFreedom: 8, redundancy: 8 },
      scatterUncertaintyRadPerSecond: u,
      sightings: fits(),
    }
    return budgetOf(estimateAt(2330, o, change), o)
  }
  const named = (budget: ReturnType<typeof from>, source: string) =>
    budget.find(line => line.source === source)
  const grid = (Math.SQRT2 * 10) / 36 / Math.sqrt(12)
  it('the grid takes its due, the marking the rest, with the degrees of freedom of its share', () => {
    const marking = named(from(0.5), 'marking scatter')!
    expect(marking.standardUncertainty ** 2).toBeCloseTo(0.25 - grid ** 2, 12)
    expect(marking.withScatter).toBe(true)
    expect(marking.degreesOfFreedom).toBeCloseTo(8 * ((0.25 - grid ** 2) / 0.25) ** 2, 9)
  })
  it('a smear takes what it is worth, at most half of what is left', () => {
    const worth = (exposureSeconds: number) => (exposureSeconds / Math.sqrt(12)) * Math.SQRT2 * 10 * rate
    const short = from(0.5, { exposureSeconds: 1e-4 })
    expect(worth(1e-4) ** 2).toBeLessThan((0.25 - grid ** 2) / 2)
    expect(named(short, 'smear')!.standardUncertainty).toBeCloseTo(worth(1e-4), 12)
    const long = from(0.5, { exposureSeconds: 0.01 })
    expect(named(long, 'smear')!.standardUncertainty ** 2).toBeCloseTo((0.25 - grid ** 2) / 2, 12)
    expect(named(long, 'marking scatter')!.standardUncertainty ** 2).toBeCloseTo((0.25 - grid ** 2) / 2, 12)
  })
  it('where grid and tick are more than all, nothing is left for the marking', () => {
    const budget = from(0.01, { tickSeconds: 0.002 })
    expect(named(budget, 'marking scatter')).toBeUndefined()
    expect(named(budget, 'pixel grid')!.standardUncertainty).toBeCloseTo(grid, 12)
  })
})

it('the ball’s velocity is that of its outlines’ centres; one outline has none', () => {
  const frames = observationsWith().frames.map((frame, i) => ({
    ...frame,
    outline:
      i % 3 === 0
        ? { xPx: 300 + 480 * frame.timeSeconds, yPx: 260 - 96 * frame.timeSeconds, radiusPx: 36 }
        : null,
  }))
  const { x, y } = ballVelocity(frames)
  expect([x, y]).toEqual([expect.closeTo(480, 6), expect.closeTo(-96, 6)])
  expect(ballVelocity(frames.slice(0, 2))).toEqual({ x: 0, y: 0 })
})
