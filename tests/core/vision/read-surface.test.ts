import { describe, expect, test } from 'vitest'
import { rotationFromVector, turned } from '../../../core/geometry/rotation.ts'
import { angleBetween, length, scaled, unit, type Vector } from '../../../core/geometry/vector.ts'
import { degOfRad } from '../../../core/units/angle.ts'
import { radPerSecondOfRpm } from '../../../core/units/rate.ts'
import { readSurface } from '../../../core/vision/surface/read-surface.ts'
import { surfaceObservations } from '../../../core/vision/surface/report.ts'
import { flightOf, spotsOf } from './painted-ball.ts'

const fps = 240
const read = (frames: ReturnType<typeof flightOf>, maxRpm = 5000, rate = fps, exposureSeconds = 1 / 4000) => {
  const input = {
    frames,
    picture: { widthPx: 320, heightPx: 140 },
    fps: rate,
    exposureSeconds,
    readoutSeconds: 0,
    // as good as infinitely far: the painted ball is seen in parallel
    focalLengthPx: 1e6,
    maxRateRadPerSecond: radPerSecondOfRpm(maxRpm),
  }
  const known = {
    ballDiameterMetres: 0.074,
    sense: null,
    captureRelativeUncertainty: 0,
    readoutUncertaintySeconds: 0,
  }
  return readSurface(input, surfaceObservations(input, known))
}
const found = (reading: ReturnType<typeof read>) => {
  if ('measured' in reading) throw new Error(reading.reason)
  return reading.estimate
}

describe('the rotation from the surface', () => {
  test.each([
    [1500, [0.2, 0.3, 0.93]],
    [2330, [0.1, -0.9, 0.3]],
    [600, [0.7, 0.1, -0.7]],
  ] as const)('of a painted ball at %d rpm about %j is put back as it was put in', (rpm, axis) => {
    const rotation = scaled(unit(axis as Vector), radPerSecondOfRpm(rpm))
    const estimate = found(read(flightOf(rotation, 16, fps, spotsOf(30, 7))))
    expect(Math.abs(length(estimate.rotationRadPerSecond) / length(rotation) - 1)).toBeLessThan(0.003)
    expect(degOfRad(angleBetween(estimate.rotationRadPerSecond, rotation))).toBeLessThan(1.5)
  })

  test('is the same where the ball flies past a lamp, whose light wanders over it', () => {
    const rotation = scaled(unit([0.2, 0.3, 0.93]), radPerSecondOfRpm(1500))
    // From the left of the ball to its right: by 90° in all.
    const lampAt = (part: number): Vector => [2 * part - 1, -0.6, -1]
    const estimate = found(read(flightOf(rotation, 16, fps, spotsOf(30, 7), 24, { lampAt })))
    expect(Math.abs(length(estimate.rotationRadPerSecond) / length(rotation) - 1)).toBeLessThan(0.003)
    expect(degOfRad(angleBetween(estimate.rotationRadPerSecond, rotation))).toBeLessThan(1.5)
  })

  test('is read of spots smeared over more than their own width, and says that it is less sure', () => {
    // 2330 rpm for 1/500 s are 28°, a spot is 14° across; its own band and axis must hold the truth (95 %: t of 2).
    const rotation = scaled(unit([0.3, 0.2, 0.9]), radPerSecondOfRpm(2330))
    const of = (exposureSeconds: number) =>
      found(
        read(
          flightOf(rotation, 16, fps, spotsOf(30, 7), 24, { exposureSeconds }),
          5000,
          fps,
          exposureSeconds,
        ),
      )
    const [crisp, smeared] = [of(1 / 4000), of(1 / 500)]
    const off = Math.abs(length(smeared.rotationRadPerSecond) - length(rotation))
    const unsure = Math.hypot(smeared.scatterUncertaintyRadPerSecond, smeared.patternRadPerSecond!)
    expect(off).toBeLessThan(2 * unsure)
    expect(off / length(rotation)).toBeLessThan(0.01)
    expect(angleBetween(smeared.rotationRadPerSecond, rotation)).toBeLessThan(2 * smeared.axisUncertaintyRad!)
    expect(smeared.scatterUncertaintyRadPerSecond).toBeGreaterThan(2 * crisp.scatterUncertaintyRadPerSecond)
  })

  test('is read together with what stands out most: a spot, in a frame that shows it squarely', () => {
    const spots = spotsOf(30, 7)
    const rotation = scaled(unit([0.1, -0.9, 0.3]), radPerSecondOfRpm(1500))
    const frames = flightOf(rotation, 16, fps, spots)
    const reading = read(frames)
    if ('measured' in reading) throw new Error(reading.reason)
    const { frame, xPx, yPx } = reading.feature!
    const { outline } = frames[frame]!
    const pose = rotationFromVector(scaled(rotation, frame / fps))
    // Seen in parallel: a spot's offset is its direction's x and y in radii, and 0.12 is its half width.
    const away = spots
      .map(spot => turned(pose, spot))
      .filter(([, , z]) => z < -0.6)
      .map(([x, y]) => Math.hypot((xPx - outline.xPx) / 24 - x, (yPx - outline.yPx) / 24 - y))
    expect(Math.min(...away)).toBeLessThan(0.12)
  })

  test('names the alias, a whole turn a frame away, as just as likely', () => {
    // 60·f = 7200 rpm apart at 120 fps (method.md, fitting the bearing, 3): 3000 and −4200 rpm.
    const rotation: Vector = [0, 0, radPerSecondOfRpm(3000)]
    const { candidates } = found(read(flightOf(rotation, 14, 120, spotsOf(30, 7)), 5000, 120))
    const rates = candidates
      .filter(c => c.plausible && c.support > 0.5)
      .map(c => (c.rateRadPerSecond * 30) / Math.PI)
    expect(rates.some(rate => Math.abs(rate - 3000) < 20)).toBe(true)
    expect(rates.some(rate => Math.abs(rate + 4200) < 20)).toBe(true)
  })

  test('is less sure where it sees less of a turn, and says when it sees too little', () => {
    // A straight line through N even phases of which each is off by A·cos: about 6A/T² of slope over T of turn
    // (the wave's own projection; derived in report.ts), so four times the turn has a sixteenth, give or take its ends.
    const of = (rpm: number) => found(read(flightOf([0, 0, radPerSecondOfRpm(rpm)], 16, fps, spotsOf(30, 7))))
    // Over 16 frames of 1/240 s 600 rpm are 225°, 2400 rpm 900°: a place comes by again in the second alone.
    const [under, over] = [of(600), of(2400)]
    const relative = (one: typeof over) => one.patternRadPerSecond! / Math.abs(one.rateRadPerSecond)
    expect(relative(under) / relative(over)).toBeGreaterThan(8)
    expect(relative(under)).toBeGreaterThan(0.005)
    expect(over.unchecked).toBeUndefined()
    expect(under.unchecked).toContain('too little')
    // 970 rpm are 364°: a whole turn, but not surely one.
    expect(of(970).unchecked).toContain('too little')
  })

  test('is refused for a ball without pattern', () => {
    const reading = read(flightOf([0, 0, radPerSecondOfRpm(1500)], 14, fps, []))
    expect(reading).toMatchObject({ measured: false, reason: expect.stringContaining('too little pattern') })
  })

  test('is refused for three frames and for a ball of a few pixels', () => {
    const frames = flightOf([0, 0, 100], 5, fps, spotsOf(30, 7))
    expect(read(frames.slice(0, 3))).toMatchObject({
      measured: false,
      reason: expect.stringContaining('3 frames'),
    })
    const small = frames.map(frame => ({ ...frame, outline: { ...frame.outline, radiusPx: 6 } }))
    expect(read(small)).toMatchObject({ measured: false, reason: expect.stringContaining('12 px') })
  })
})
