import { describe, expect, it } from 'vitest'
import { degOnLine, laidOn, type Series } from '../../../core/picture/series.ts'
import { nearest, startOfLine } from '../../../core/picture/unwrap.ts'

/** A mark's folded bearings at a steady rate, seen by an even camera. */
function seenAt(rpm: number, fps: number, frames: number, symmetryOrder = 1): Series {
  const repeat = 360 / symmetryOrder
  const points = Array.from({ length: frames }, (_, frame) => {
    const deg = 40 + (rpm * 6 * frame) / fps
    const folded = deg - repeat * Math.floor(deg / repeat)
    return { frame, timeSeconds: frame / fps, deg: folded, residualDeg: null, residualPx: null, weight: 1 }
  })
  return { mark: { id: 'logo', kind: 'point', symmetryOrder }, points, hiddenFrames: [], line: null }
}
const worst = (series: Series) => Math.max(...series.points.map(point => Math.abs(point.residualDeg!)))

describe('points laid on a rate', () => {
  it('lie on the line of the rate that they turn at', () => {
    const laid = laidOn(seenAt(2330, 240, 24), 2330 * 6)
    expect(worst(laid)).toBeLessThan(1e-6)
    expect(laid.points.at(-1)!.deg - laid.points[0]!.deg).toBeCloseTo((2330 * 6 * 23) / 240, 6)
  })

  // Folded readings by arithmetic: 2330 rpm at 60 fps turns 233° a frame, which looks like −127°.
  it.each([
    [2330, 60, 1, -1270],
    [2330, 60, 2, 530],
    [2048, 120, 2, -1552],
    [1200, 60, 2, -600],
  ])('%d rpm at %d fps, alike %d× a turn, lie as well on %d rpm', (rpm, fps, symmetryOrder, folded) => {
    const seen = seenAt(rpm, fps, 12, symmetryOrder)
    expect(worst(laidOn(seen, rpm * 6))).toBeLessThan(1e-6)
    expect(worst(laidOn(seen, folded * 6))).toBeLessThan(1e-6)
    expect(worst(laidOn(seen, (rpm + 100) * 6))).toBeGreaterThan(5)
  })

  it('start where the points start, so that two rates are compared from one place', () => {
    const seen = seenAt(2330, 60, 12)
    for (const rpm of [2330, -1270]) {
      const laid = laidOn(seen, rpm * 6)
      expect(degOnLine(laid.line!, 0)).toBeCloseTo(40, 6)
    }
  })
})

describe('unwrapping', () => {
  it('takes the turn nearest to where the angle is expected', () => {
    expect(nearest(10, 725, 360)).toBe(730)
    expect(nearest(350, -5, 360)).toBe(-10)
    expect(nearest(10, 100, 90)).toBe(100)
  })

  it('finds the start across the seam between 359° and 0°', () => {
    const points = [358, 2, 359, 1].map(deg => ({ timeSeconds: 0, deg, weight: 1 }))
    expect(startOfLine(points, 0, 360)).toBeCloseTo(0, 9)
  })
})
