import { describe, expect, it } from 'vitest'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { marksOf } from './truth.ts'

const flying = (xPxPerSecond: number) =>
  marksOf({
    clickPx: 0.5,
    statedClickPx: 0.5,
    tiltDeg: 25,
    velocity: { xPxPerSecond, yPxPerSecond: 0 },
    centre: { xPx: 480 - xPxPerSecond / 20, yPx: 270 },
    capture: { focalLengthPx: 3000 },
  })

describe('the spin of marks split on the flight', () => {
  it('a ball that turns clockwise and flies right has topspin, 2330·cos 25° of it', () => {
    const { parts, axis } = readMarks(flying(4000))
    // Clockwise as the camera sees it, flying to the right: the top goes forward (method.md, words).
    const expected = 2330 * Math.cos((25 * Math.PI) / 180)
    expect(Math.abs(parts!.topspinRpm - expected)).toBeLessThan(100)
    expect(Math.hypot(parts!.topspinRpm, parts!.sidespinRpm, parts!.gyroRpm)).toBeCloseTo(
      readMarks(flying(4000)).rpm!,
      6,
    )
    expect(axis!.coneDeg!).toBeGreaterThan(axis!.uncertaintyDeg!)
  })
  it('the same ball flying left has backspin', () => {
    expect(readMarks(flying(-4000)).parts!.topspinRpm).toBeLessThan(-1900)
  })
  it('a ball that stands still has no flight to split on, and the reading says so', () => {
    const reading = readMarks(flying(0))
    expect(reading.parts).toBeNull()
    expect(reading.reasons.join(' ')).toMatch(/Not split into topspin, sidespin and gyro/)
  })
})
