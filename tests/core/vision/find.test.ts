import { describe, expect, test } from 'vitest'
import { findTracks } from '../../../core/vision/find/find-tracks.ts'
import { outlineFlight } from '../../../core/vision/find/outline-flight.ts'
import type { Luma } from '../../../core/vision/luma.ts'
import { flightOf, painted, smallPicture as picture, spotsOf } from './painted-ball.ts'

const frames = flightOf([20, 30, 160], 22, 240, spotsOf(30, 3), 20)
const small = (all: typeof frames) => all.map(({ index, luma }) => ({ frame: index, luma }))
const crops = (all: typeof frames) =>
  all.map(({ index, timeSeconds, luma }) => ({ frame: index, timeSeconds, luma }))
const standing = (outline: { xPx: number; yPx: number; radiusPx: number }) =>
  Array.from({ length: 20 }, (_, i) => {
    const luma = painted({ ...picture, outline, turned: [0, 0, i], spots: spotsOf(30, 3), seed: i + 50 })
    return { index: i, timeSeconds: i / 240, outline, luma }
  })

describe('finding the ball', () => {
  test('gives one flight, and in every frame the outline to a fraction of a pixel', () => {
    const { tracks } = findTracks(small(frames))
    expect(tracks).toHaveLength(1)
    const { outlines } = outlineFlight(tracks[0]!, crops(frames), picture)!
    expect(outlines.length).toBeGreaterThanOrEqual(21)
    for (const { frame, outline } of outlines) {
      const truth = frames[frame]!.outline
      expect(Math.hypot(outline.xPx - truth.xPx, outline.yPx - truth.yPx)).toBeLessThan(0.3)
      expect(Math.abs(outline.radiusPx / truth.radiusPx - 1)).toBeLessThan(0.02)
    }
  })

  test('finds the same flight when the clip runs backwards', () => {
    const n = frames.length
    const back = frames.map((frame, i) => ({ ...frame, index: n - 1 - i })).reverse()
    expect(findTracks(small(back)).tracks[0]!.seen.length).toBeGreaterThanOrEqual(20)
  })

  test('goes on with a flight that the stretch before has begun to see', () => {
    const [first, second] = [small(frames.slice(0, 14)), small(frames.slice(6))]
    const seen = findTracks(first).seen.filter(({ frame }) => frame >= 6)
    const { tracks } = findTracks(second, { seen, untilFrame: 13 })
    expect(tracks).toHaveLength(1)
    expect(tracks[0]!.seen[0]!.frame).toBe(6)
    // What was looked at is not looked at again.
    const anew = findTracks(second, { seen: [], untilFrame: 13 })
    expect(anew.tracks[0]!.seen[0]!.frame).toBe(14)
  })

  test('finds nothing without a ball, and nothing in two frames', () => {
    expect(findTracks(small(standing({ xPx: -100, yPx: -100, radiusPx: 20 }))).tracks).toEqual([])
    expect(findTracks(small(frames.slice(0, 2))).tracks).toEqual([])
  })

  test('does not take a ball at rest for a flight', () => {
    expect(findTracks(small(standing({ xPx: 150, yPx: 70, radiusPx: 20 }))).tracks).toEqual([])
  })

  test.each([100, 120])('is not misled by a lamp that flickers at %d Hz', hertz => {
    // 240 fps, 10 % deep: at 120 Hz every other frame is bright
    const lit = frames.map(frame => {
      const gain = 1 + 0.1 * Math.cos(2 * Math.PI * hertz * frame.timeSeconds)
      return { ...frame, luma: { ...frame.luma, data: Float32Array.from(frame.luma.data, v => gain * v) } }
    })
    expect(findTracks(small(lit)).tracks[0]!.seen.length).toBeGreaterThanOrEqual(18)
  })

  /** The frames as a camera that stands (x, y) px elsewhere shows them. */
  const moved = (luma: Luma, x: number, y: number): Luma => ({
    ...luma,
    data: Uint8Array.from(luma.data, (_, at) => {
      const column = Math.min(Math.max((at % luma.widthPx) - x, 0), luma.widthPx - 1)
      const row = Math.min(Math.max(Math.floor(at / luma.widthPx) - y, 0), luma.heightPx - 1)
      return luma.data[row * luma.widthPx + column]!
    }),
  })
  const errorsOf = (all: typeof frames) => {
    const [track] = findTracks(small(all)).tracks
    const { outlines } = outlineFlight(track!, crops(all), picture)!
    return outlines.map(({ frame, outline }) => {
      const truth = all[frame]!.outline
      return Math.hypot(outline.xPx - truth.xPx, outline.yPx - truth.yPx)
    })
  }

  test('follows the ball in the picture of a camera that shakes', () => {
    const shaken = frames.map(frame => {
      const [x, y] = [Math.round(2 * Math.sin(2 * frame.index)), Math.round(Math.cos(3 * frame.index))]
      const { xPx, yPx, radiusPx } = frame.outline
      return {
        ...frame,
        luma: moved(frame.luma, x, y),
        outline: { xPx: xPx + x, yPx: yPx + y, radiusPx },
      }
    })
    const errors = errorsOf(shaken)
    expect(errors.length).toBeGreaterThanOrEqual(18)
    expect(Math.max(...errors)).toBeLessThan(0.5)
  })

  test('keeps the ball before clutter', () => {
    // A wall of bricks, 24 × 10 px, 60 codes from their joints.
    const joint = (x: number, y: number) => y % 10 < 2 || (x + (Math.floor(y / 10) % 2) * 12) % 24 < 2
    const cluttered = frames.map(frame => ({
      ...frame,
      luma: {
        ...frame.luma,
        data: Uint8Array.from(frame.luma.data, (code, at) => {
          const [x, y] = [at % 320, Math.floor(at / 320)]
          const { xPx, yPx, radiusPx } = frame.outline
          const cover = Math.max(0, Math.min(1, radiusPx - Math.hypot(x + 0.5 - xPx, y + 0.5 - yPx) + 0.5))
          return cover * code + (1 - cover) * (joint(x, y) ? 130 : 70)
        }),
      },
    }))
    const errors = errorsOf(cluttered)
    expect(errors.length).toBeGreaterThanOrEqual(18)
    expect(Math.max(...errors)).toBeLessThan(0.5)
  })
})
