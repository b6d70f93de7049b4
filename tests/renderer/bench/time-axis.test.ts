import { describe, expect, it } from 'vitest'
import { angleTicks, roundTicks } from '../../../core/picture/ticks.ts'
import { picturesAlong, pictureWidth, shownFrames, timeAxis } from '../../../core/picture/time-axis.ts'
import { draggedWindow } from '../../../renderer/screens/bench/time/dragged-window.ts'

const even = Array.from({ length: 60 }, (_, frame) => frame / 240)
/** Two frames are missing after frame 20: their gap is kept. */
const gap = even.map((seconds, frame) => (frame > 20 ? seconds + 2 / 240 : seconds))

describe('the time axis', () => {
  it('puts half a column beside the first and the last frame, so that their pictures fit', () => {
    const axis = timeAxis(even, { fromFrame: 10, toFrame: 29, leftPx: 64, rightPx: 864 })
    expect(axis.x(10)).toBeCloseTo(64 + 20, 9)
    expect(axis.x(29)).toBeCloseTo(864 - 20, 9)
    expect(axis.x(11) - axis.x(10)).toBeCloseTo(40, 9)
  })

  it('keeps the gap of dropped frames', () => {
    const axis = timeAxis(gap, { fromFrame: 10, toFrame: 29, leftPx: 64, rightPx: 864 })
    expect((axis.x(21) - axis.x(20)) / (axis.x(20) - axis.x(19))).toBeCloseTo(3, 9)
  })

  it('finds the frame nearest to a pointer, and never one that is not shown', () => {
    const axis = timeAxis(gap, { fromFrame: 10, toFrame: 29, leftPx: 64, rightPx: 864 })
    for (let frame = 10; frame <= 29; frame++) expect(axis.frameAt(axis.x(frame) + 1)).toBe(frame)
    expect(axis.frameAt((axis.x(20) + axis.x(21)) / 2 - 1)).toBe(20)
    expect(axis.frameAt((axis.x(20) + axis.x(21)) / 2 + 1)).toBe(21)
    expect(axis.frameAt(-50)).toBe(10)
    expect(axis.frameAt(5000)).toBe(29)
  })

  it('stands on one frame, and on frames that share one time, without falling over', () => {
    const one = timeAxis(even, { fromFrame: 7, toFrame: 7, leftPx: 0, rightPx: 100 })
    expect(one.x(7)).toBe(50)
    const same = timeAxis([0, 0, 0], { fromFrame: 0, toFrame: 2, leftPx: 0, rightPx: 90 })
    expect([0, 1, 2].map(same.x)).toEqual([45, 45, 45])
    expect(picturesAlong(same, 20)).toEqual([0])
  })

  it('shows a picture of every frame while they fit, and none over another when they do not', () => {
    const wide = timeAxis(even, { fromFrame: 10, toFrame: 29, leftPx: 64, rightPx: 864 })
    expect(picturesAlong(wide, pictureWidth(wide))).toHaveLength(20)
    const dense = timeAxis(even, { fromFrame: 0, toFrame: 59, leftPx: 64, rightPx: 664 })
    const shown = picturesAlong(dense, pictureWidth(dense))
    expect(shown.length).toBeLessThan(60)
    for (let i = 1; i < shown.length; i++)
      expect(dense.x(shown[i]!) - dense.x(shown[i - 1]!)).toBeGreaterThanOrEqual(pictureWidth(dense) - 1e-6)
  })

  it('leaves room to widen the window, inside the clip', () => {
    expect(shownFrames({ fromFrame: 20, toFrame: 39 }, 60, false)).toEqual({ fromFrame: 18, toFrame: 41 })
    expect(shownFrames({ fromFrame: 0, toFrame: 59 }, 60, false)).toEqual({ fromFrame: 0, toFrame: 59 })
    expect(shownFrames({ fromFrame: 20, toFrame: 39 }, 60, true)).toEqual({ fromFrame: 0, toFrame: 59 })
  })
})

describe('a drag along the time axis', () => {
  const axis = timeAxis(even, { fromFrame: 0, toFrame: 59, leftPx: 0, rightPx: 1200 })
  const window = { fromFrame: 20, toFrame: 40 }

  it('chooses the frames between its ends, whichever way it goes', () => {
    expect(draggedWindow(axis, window, axis.x(25), axis.x(33))).toEqual({ fromFrame: 25, toFrame: 33 })
    expect(draggedWindow(axis, window, axis.x(33), axis.x(25))).toEqual({ fromFrame: 25, toFrame: 33 })
  })

  it('moves the end that it took hold of, and not past the other', () => {
    const first = (axis.x(19) + axis.x(20)) / 2
    const last = (axis.x(40) + axis.x(41)) / 2
    expect(draggedWindow(axis, window, first + 3, axis.x(12))).toEqual({ fromFrame: 12, toFrame: 40 })
    expect(draggedWindow(axis, window, last - 3, axis.x(50))).toEqual({ fromFrame: 20, toFrame: 50 })
    expect(draggedWindow(axis, window, last, axis.x(3))).toEqual({ fromFrame: 20, toFrame: 20 })
  })
})

describe('ticks', () => {
  it('are round values inside the range', () => {
    expect(roundTicks(-3, 104, 8)).toEqual([0, 20, 40, 60, 80, 100])
    expect(roundTicks(0.01, 0.052, 5)).toEqual([0.01, 0.02, 0.03, 0.04, 0.05])
  })

  it('are parts of a turn for angles, whole turns where there are many', () => {
    expect(angleTicks(0, 360, 4)).toEqual([0, 90, 180, 270, 360])
    expect(angleTicks(-40, 1400, 5)).toEqual([0, 360, 720, 1080])
    expect(angleTicks(0, 9000, 4)).toEqual([0, 3600, 7200])
  })
})
