import { describe, expect, it } from 'vitest'
import { outlineAt } from '../../../core/marking/outline-at.ts'

const placed = (frame: number, xPx: number, yPx: number, radiusPx: number) => ({ frame, xPx, yPx, radiusPx })

/**
 * A ball in flight seen by a pinhole camera (focal length 900 px, 4 m away, 240 fps): free fall at
 * 9.80665 m/s² (standard gravity, 3rd CGPM 1901), 15 m/s across, 3 m/s up, 4 m/s towards the camera.
 */
function ballistic(timeSeconds: number) {
  const depth = 4 - 4 * timeSeconds
  const x = -1.2 + 15 * timeSeconds
  const y = 0.3 - 3 * timeSeconds + (9.80665 / 2) * timeSeconds ** 2
  return { xPx: 960 + (900 * x) / depth, yPx: 540 + (900 * y) / depth, radiusPx: (900 * 0.037) / depth }
}
const times = Array.from({ length: 60 }, (_, frame) => frame / 240)
const every8 = Array.from({ length: 6 }, (_, k) => ({ frame: 8 * k, ...ballistic((8 * k) / 240) }))

const distance = (a: { xPx: number; yPx: number }, b: { xPx: number; yPx: number }) =>
  Math.hypot(a.xPx - b.xPx, a.yPx - b.yPx)

describe('the outline between placed ones', () => {
  it('is null while none is placed', () => {
    expect(outlineAt({ outlines: [] }, 3)).toBeNull()
  })

  it('stays where the only one is', () => {
    expect(outlineAt({ outlines: [placed(5, 10, 20, 7)] }, 40)).toEqual({ xPx: 10, yPx: 20, radiusPx: 7 })
  })

  it('lies on the straight line of two, and goes on along it with the radius of the end', () => {
    const outlines = [placed(20, 50, 0, 8), placed(10, 10, 20, 6)]
    expect(outlineAt({ outlines }, 15)).toEqual({ xPx: 30, yPx: 10, radiusPx: 7 })
    expect(outlineAt({ outlines }, 25)).toEqual({ xPx: 70, yPx: -10, radiusPx: 8 })
    expect(outlineAt({ outlines }, 0)).toEqual({ xPx: -30, yPx: 40, radiusPx: 6 })
  })

  it('is the placed one where one is placed', () => {
    for (const { frame, ...circle } of every8) {
      const found = outlineAt({ outlines: every8 }, frame, times)
      expect(distance(found!, circle)).toBeLessThan(1e-9)
      expect(found?.radiusPx).toBeCloseTo(circle.radiusPx, 9)
    }
  })

  it('follows a ballistic path within 0.3 px for placements every 8 frames', () => {
    for (let frame = 0; frame <= 40; frame++) {
      const truth = ballistic(frame / 240)
      const found = outlineAt({ outlines: every8 }, frame, times)
      expect(distance(found!, truth)).toBeLessThan(0.3)
      expect(Math.abs(found!.radiusPx - truth.radiusPx)).toBeLessThan(0.3)
    }
  })

  it('follows any parabola exactly, inside and up to one gap beyond the ends', () => {
    const parabola = (frame: number) => placed(frame, 3 * frame, 5 - 2 * frame + 0.07 * frame ** 2, 10)
    const outlines = [4, 9, 17, 20].map(parabola)
    for (let frame = 0; frame <= 23; frame++)
      expect(outlineAt({ outlines }, frame)?.yPx).toBeCloseTo(parabola(frame).yPx, 9)
  })

  it('goes straight on further out, where a parabola would run away', () => {
    const outlines = [placed(4, 0, 0, 9), placed(6, 0, 0, 9), placed(8, 0, 1, 9)]
    const y = (frame: number) => outlineAt({ outlines }, frame)!.yPx
    expect(y(14) - y(13)).toBeCloseTo(y(30) - y(29), 9)
    expect(y(-14) - y(-13)).toBeCloseTo(y(-30) - y(-29), 9)
  })

  it('moves only near a placed outline that is moved', () => {
    const moved = every8.map(outline =>
      outline.frame === 0 ? { ...outline, xPx: outline.xPx + 9 } : outline,
    )
    for (const frame of [17, 25, 40])
      expect(outlineAt({ outlines: moved }, frame, times)).toEqual(
        outlineAt({ outlines: every8 }, frame, times),
      )
  })

  it('keeps to the flight over dropped frames, which only real times show', () => {
    // Frames 11 to 14 of the flight never reached the file: from there on a frame's number lags by 4.
    const kept = times.filter((_, frame) => frame < 11 || frame > 14)
    const outlines = [0, 8, 16, 24].map(frame => ({ frame, ...ballistic(kept[frame]!) }))
    const worst = (frameTimes?: number[]) =>
      Math.max(
        ...kept.slice(0, 25).map((time, frame) => {
          return distance(outlineAt({ outlines }, frame, frameTimes)!, ballistic(time))
        }),
      )
    expect(worst(kept)).toBeLessThan(0.3)
    expect(worst()).toBeGreaterThan(5)
  })
})
