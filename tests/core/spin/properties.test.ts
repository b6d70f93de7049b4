import { assert, constantFrom, integer, property, record } from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import type { Reading } from '../../../core/contract/reading.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { marksOf } from './truth.ts'

/** Hits that one view of a thing should not change: fast and slow, tilted or not, few frames and many. */
const hits = record({
  seed: integer({ min: 1, max: 10_000 }),
  rpm: integer({ min: -3000, max: 3000 }).filter(rpm => Math.abs(rpm) > 300),
  frames: integer({ min: 8, max: 30 }),
  tiltDeg: constantFrom(0, 0, 35),
  kind: constantFrom('point' as const, 'direction' as const),
})
const marksFor = (hit: {
  seed: number
  rpm: number
  frames: number
  tiltDeg: number
  kind: 'point' | 'direction'
}) =>
  marksOf({
    ...hit,
    tiltDeg: hit.kind === 'direction' ? 0 : hit.tiltDeg,
    clickPx: 0.7,
    statedClickPx: 0.7,
    writtenTime: t => t,
  })

/** Applies one change to every place in the marks: a rigid motion of the picture. */
function moved(
  marks: Marks,
  place: (x: number, y: number) => [number, number],
  bearing: (deg: number) => number,
): Marks {
  const next = structuredClone(marks)
  for (const frame of next.frames) {
    const outline = frame.outline!
    ;[outline.xPx, outline.yPx] = place(outline.xPx, outline.yPx)
    frame.seen = frame.seen.map(seen => {
      if ('bearingDeg' in seen) return { ...seen, bearingDeg: bearing(seen.bearingDeg) }
      const [xPx, yPx] = place(seen.xPx, seen.yPx)
      return { ...seen, xPx, yPx }
    })
  }
  return next
}

/** Fits stop when nothing changes any more: to a part in a hundred thousand, and to a hundredth of the band. */
function sameFigures(a: Reading, b: Reading): void {
  expect(b.flag).toBe(a.flag)
  if (a.rpm === null || b.rpm === null) {
    expect(b.rpm).toBe(a.rpm)
    return
  }
  const tolerance = 0.02 * a.standardUncertaintyRpm! + 1e-5 * a.rpm
  expect(Math.abs(b.rpm - a.rpm)).toBeLessThan(tolerance)
  expect(b.method).toBe(a.method)
  expect(Math.abs(b.standardUncertaintyRpm! / a.standardUncertaintyRpm! - 1)).toBeLessThan(0.02)
}
const otherSense = (sense: Reading['sense']) =>
  sense === null ? null : sense === 'clockwise' ? 'counter-clockwise' : 'clockwise'
const check = (holds: (marks: Marks, reading: Reading) => void) =>
  assert(
    property(hits, hit => {
      const marks = marksFor(hit)
      holds(marks, readMarks(marks))
    }),
    { numRuns: 25, seed: 7 },
  )

describe('what changes a reading, and what does not', () => {
  it('turning the whole scene about the picture’s centre changes nothing but the axis', () => {
    check((marks, before) => {
      const [cos, sin] = [Math.cos(0.7), Math.sin(0.7)]
      const turned = moved(
        marks,
        (x, y) => [480 + (x - 480) * cos - (y - 270) * sin, 270 + (x - 480) * sin + (y - 270) * cos],
        deg => deg + (0.7 * 180) / Math.PI,
      )
      const after = readMarks(turned)
      sameFigures(before, after)
      expect(after.sense).toBe(before.sense)
    })
  })
  it('a mirror turns the sense round', () => {
    check((marks, before) => {
      const after = readMarks(
        moved(
          marks,
          (x, y) => [960 - x, y],
          deg => 180 - deg,
        ),
      )
      sameFigures(before, after)
      expect(after.sense).toBe(otherSense(before.sense))
    })
  })
  it('time run backwards turns the sense round', () => {
    check((marks, before) => {
      const last = marks.frames.at(-1)!
      const frames = marks.frames
        .map(frame => ({
          ...frame,
          index: last.index - frame.index,
          timeSeconds: last.timeSeconds! - frame.timeSeconds!,
        }))
        .toReversed()
      const after = readMarks({ ...marks, frames })
      sameFigures(before, after)
      expect(after.sense).toBe(otherSense(before.sense))
    })
  })
  it('the order and names of marks and frames say nothing', () => {
    assert(
      property(hits, hit => {
        const two = marksOf({
          ...hit,
          kind: 'point',
          clickPx: 0.7,
          marks: [
            { id: 'logo', symmetryOrder: 1, offsetShare: 0.5, startDeg: 20 },
            { id: 'dot', symmetryOrder: 1, offsetShare: 0.7, startDeg: 150 },
          ],
        })
        const names = { logo: 'zebra', dot: 'apple' } as Record<string, string>
        const renamed: Marks = {
          ...two,
          marks: two.marks.map(mark => ({ ...mark, id: names[mark.id]! })).toReversed(),
          frames: two.frames
            .map(frame => ({
              ...frame,
              seen: frame.seen.map(seen => ({ ...seen, mark: names[seen.mark]! })).toReversed(),
              ...(frame.hidden ? { hidden: frame.hidden.map(id => names[id]!) } : {}),
            }))
            .toReversed(),
        }
        const [before, after] = [readMarks(two), readMarks(renamed)]
        sameFigures(before, after)
        expect(after.sense).toBe(before.sense)
      }),
      { numRuns: 25, seed: 7 },
    )
  })
  it('a clock twice as fast doubles every rate', () => {
    check((marks, before) => {
      const fast: Marks = {
        ...marks,
        capture: { ...marks.capture, fps: 2 * marks.capture.fps },
        plausible: { maxRpm: 10_000 },
        frames: marks.frames.map(frame => ({ ...frame, timeSeconds: frame.timeSeconds! / 2 })),
      }
      const after = readMarks(fast)
      if (before.rpm === null) return expect(after.rpm).toBeNull()
      expect(after.rpm! / before.rpm).toBeCloseTo(2, 3)
      expect(after.flag).toBe(before.flag)
      expect(after.rotationPerFrameDeg!).toBeCloseTo(before.rotationPerFrameDeg!, 1)
    })
  })
  it('a picture of twice the pixels, with twice the click error, changes nothing', () => {
    check((marks, before) => {
      const scaled = moved(
        marks,
        (x, y) => [2 * x, 2 * y],
        deg => deg,
      )
      for (const frame of scaled.frames) frame.outline!.radiusPx *= 2
      const after = readMarks({
        ...scaled,
        picture: { widthPx: 1920, heightPx: 1080 },
        capture: { ...scaled.capture, focalLengthPx: 2e6 },
        click: { standardUncertaintyPx: 1.4 },
      })
      if (before.rpm === null) return expect(after.rpm).toBeNull()
      // The pixel grid, though, is half as coarse on the ball; that may tip the choice of method, then figures agree.
      if (after.method !== before.method) {
        expect(after.rpm!).toBeGreaterThan(before.band!.lowRpm)
        return expect(after.rpm!).toBeLessThan(before.band!.highRpm)
      }
      expect(Math.abs(after.rpm! - before.rpm)).toBeLessThan(0.25 * before.standardUncertaintyRpm!)
      expect(after.sense).toBe(before.sense)
      expect(after.standardUncertaintyRpm!).toBeLessThan(1.1 * before.standardUncertaintyRpm!)
    })
  })
})
