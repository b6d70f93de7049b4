import { describe, expect, it } from 'vitest'
import { bearingsOf } from '../../../core/spin/bearings-of.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { phaseWeights, withoutLine } from '../../../core/spin/phase-residuals.ts'
import { estimateAt, fitWith, observationsWith } from './facts.ts'

const close = (value: number, digits = 9) => expect.closeTo(value, digits)

describe('sightings as bearings', () => {
  const bearings = (
    sightings: Observations['sightings'],
    capture: Partial<Observations['capture']> = {},
    change: Partial<Observations> = {},
  ) => {
    const o = observationsWith(change)
    return bearingsOf({ ...o, sightings, capture: { ...o.capture, ...capture } })
  }
  const point = (frame: number, dx: number, dy: number, mark = 0) => ({
    kind: 'point' as const,
    frame,
    mark,
    xPx: 300 + dx,
    yPx: 260 + dy,
    smearArcRad: null,
  })
  const direction = (frame: number, bearingRad: number, mark = 0) => ({
    kind: 'direction' as const,
    frame,
    mark,
    bearingRad,
  })
  it('a place is seen from the centre: 0 to the right, a quarter turn downwards, by its distance', () => {
    const b = bearings([point(0, 20, 0), point(1, 0, 12), point(2, -3, -4)])
    expect([...b.bearingRad]).toEqual([0, Math.PI / 2, Math.atan2(-4, -3)].map(v => close(v)))
    expect([...b.pxPerRad]).toEqual([20, 12, 5].map(v => close(v)))
    expect([...b.timeSeconds]).toEqual([0, 1 / 240, 2 / 240].map(v => close(v)))
  })
  it('a direction is as good as a click at the rim; without an outline as eyes are, within 3°', () => {
    expect(bearings([direction(4, 1.2)])).toMatchObject({
      bearingRad: Float64Array.of(1.2),
      pxPerRad: Float64Array.of(36),
    })
    const frames = observationsWith().frames.map(frame => ({ ...frame, outline: null }))
    const threeDegrees = (3 * Math.PI) / 180
    expect(bearings([direction(4, 1.2)], {}, { frames }).pxPerRad[0]).toBeCloseTo(1 / threeDegrees, 9)
    expect(bearings([direction(4, 1.2)], {}, { frames, clickPx: null }).pxPerRad[0]).toBeCloseTo(
      1.5 / threeDegrees,
      9,
    )
  })
  it('know the repeat of each mark, and how many marks were seen', () => {
    const marks = [
      { id: 'line', symmetryOrder: 2 },
      { id: 'star', symmetryOrder: 5 },
      { id: 'never', symmetryOrder: 1 },
    ]
    const b = bearings([direction(0, 0), direction(1, 0, 1), direction(2, 0, 1)], {}, { marks })
    expect([...b.periodRad]).toEqual([Math.PI, (2 * Math.PI) / 5, (2 * Math.PI) / 5].map(v => close(v)))
    expect([...b.mark]).toEqual([0, 1, 1])
    expect([b.count, b.marksSeen]).toEqual([3, 2])
  })
  it('a row is read later by readout·y/H; unknown, the readout is half the frame’s interval', () => {
    // y = 270 of 540: half of 4 ms; a direction is seen at its outline's row, 260.
    expect(bearings([point(0, 0, 10)], { readoutSeconds: 0.004 }).timeSeconds[0]).toBeCloseTo(0.002, 12)
    expect(bearings([direction(0, 0)], { readoutSeconds: 0.004 }).timeSeconds[0]).toBeCloseTo(
      (0.004 * 260) / 540,
      12,
    )
    expect(bearings([point(0, 0, 10)], { readoutSeconds: null }).timeSeconds[0]).toBeCloseTo(1 / 960, 12)
  })
  it('a ball that flies has moved on when the mark’s row is read', () => {
    const frames = observationsWith().frames.map(frame => ({
      ...frame,
      outline: { xPx: 300 + 1200 * frame.timeSeconds, yPx: 260 + 600 * frame.timeSeconds, radiusPx: 36 },
    }))
    // 27 px below the centre, 27/540 of 4 ms later: the centre is 0.24 px further right and 0.12 px lower.
    const b = bearings([point(0, 10, 27)], { readoutSeconds: 0.004 }, { frames })
    expect(b.bearingRad[0]).toBeCloseTo(Math.atan2(27 - 0.12, 10 - 0.24), 9)
    expect(b.pxPerRad[0]).toBeCloseTo(Math.hypot(27 - 0.12, 10 - 0.24), 9)
  })
})

describe('residuals in phase', () => {
  const o = observationsWith()
  it('weigh as a click does, ρ²/σ², and no click is finer than the pixel grid', () => {
    const weights = (px: number) =>
      phaseWeights(
        estimateAt(2330, o, {
          scatter: { px, from: 'residuals', degreesOfFreedom: 9, redundancy: 9 },
          sightings: [fitWith({ pxPerRad: 30, weight: 0.5 })],
        }),
      )[0]
    expect(weights(2)).toBeCloseTo((0.5 * 900) / 4, 9)
    expect(weights(0)).toBeCloseTo(0.5 * 900 * 12, 9)
  })
  it('lose each mark’s offset and the common rate, and keep what is square to them', () => {
    const two = {
      ...o,
      marks: [o.marks[0]!, { id: 'dot', symmetryOrder: 1 }],
      sightings: o.sightings.map((sighting, k) => ({ ...sighting, mark: k % 2 })),
    }
    const estimate = estimateAt(2330, two)
    const weights = new Float64Array(24).fill(1)
    const line = Float64Array.from(
      estimate.sightings,
      ({ timeSeconds }, k) => 3 + 5 * (k % 2) - 40 * timeSeconds,
    )
    for (const each of withoutLine(line, weights, estimate, two)) expect(each).toBeCloseTo(0, 9)
    const bent = withoutLine(
      line.map((v, k) => v + (k - 11.5) ** 2),
      weights,
      estimate,
      two,
    )
    for (const mark of [0, 1])
      expect(bent.reduce((sum, each, k) => sum + (k % 2 === mark ? each : 0), 0)).toBeCloseTo(0, 6)
    expect(bent.reduce((sum, each, k) => sum + each * (k - 11.5), 0)).toBeCloseTo(0, 6)
    expect(Math.max(...bent.map(Math.abs))).toBeGreaterThan(40)
  })
  it('stay as they are where no line can be taken out', () => {
    const still = estimateAt(2330, o, { sightings: o.sightings.map(() => fitWith()) })
    const shape = Float64Array.from({ length: 24 }, (_, k) => k)
    expect(withoutLine(shape, new Float64Array(24).fill(1), still, o)).toBe(shape)
  })
})
