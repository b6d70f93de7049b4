import { describe, expect, test } from 'vitest'
import type { Outline } from '../../../core/contract/marks.ts'
import { isWhole } from '../../../core/vision/find/by-appearance.ts'
import { findTracks } from '../../../core/vision/find/find-tracks.ts'
import { outlineFlight } from '../../../core/vision/find/outline-flight.ts'
import type { Luma } from '../../../core/vision/luma.ts'
import { flightOf, smallPicture as picture, spotsOf } from './painted-ball.ts'

const radiusPx = 20
const frames = flightOf([20, 30, 160], 22, picture.fps, spotsOf(30, 3), radiusPx)
type Frames = typeof frames

const flightsIn = (all: Frames, seen = picture) => {
  const crops = all.map(({ index, timeSeconds, luma }) => ({ frame: index, timeSeconds, luma }))
  const { tracks } = findTracks(crops.map(({ frame, luma }) => ({ frame, luma })))
  return tracks.flatMap(track => outlineFlight(track, crops, seen) ?? [])
}
const apart = (a: Outline, b: Outline) => Math.hypot(a.xPx - b.xPx, a.yPx - b.yPx)

/** The picture between two columns. */
const columnsOf = (luma: Luma, fromPx: number, widthPx: number): Luma => ({
  ...luma,
  widthPx,
  data: Uint8Array.from({ length: widthPx * luma.heightPx }, (_, at) => {
    return luma.data[Math.floor(at / widthPx) * luma.widthPx + fromPx + (at % widthPx)]!
  }),
})

describe('a ball that flies out of the picture', () => {
  test.each([
    ['leaves', 0],
    ['comes in', 120],
  ])('is outlined where it %s, with an uncertainty that holds the truth', (_, fromPx) => {
    const seen = { ...picture, widthPx: 200 }
    const cut = frames.map(({ outline, ...frame }) => ({
      ...frame,
      luma: columnsOf(frame.luma, fromPx, 200),
      outline: { ...outline, xPx: outline.xPx - fromPx },
    }))
    const [flight, ...more] = flightsIn(cut, seen)
    expect(more).toEqual([])
    const truthOf = (frame: number) => cut[frame]!.outline
    const [whole, part] = [true, false].map(is =>
      flight!.outlines.filter(({ outline }) => isWhole(outline, seen) === is),
    )
    // The ball goes 240 px in 21 steps: it is whole in 12 frames, and its middle is inside in one or two more.
    expect(whole!.length).toBeGreaterThanOrEqual(11)
    for (const { frame, outline } of whole!) expect(apart(outline, truthOf(frame))).toBeLessThan(0.5)
    const least = cut.filter(({ outline }) => !isWhole(outline, seen) && isWhole(outline, seen, -radiusPx))
    expect(least.length).toBeGreaterThan(0)
    expect(part!.map(({ frame }) => frame)).toEqual(expect.arrayContaining(least.map(({ index }) => index)))
    for (const { frame, outline, centreUncertaintyPx, radiusUncertaintyPx } of part!) {
      // 99 % of a normal law's errors lie within 2.58, of two coordinates together within 3.03.
      expect(apart(outline, truthOf(frame))).toBeLessThan(3.03 * centreUncertaintyPx)
      expect(Math.abs(outline.radiusPx - radiusPx)).toBeLessThan(2.58 * radiusUncertaintyPx)
      expect(centreUncertaintyPx).toBeGreaterThan(Math.max(...whole!.map(one => one.centreUncertaintyPx)))
    }
  })
})

describe('a ball whose lower half is as bright as the wall', () => {
  /** Only its spots tell the lower half from the wall; the upper one grows brighter upwards. */
  const faint = frames.map(frame => {
    const { xPx, yPx, radiusPx: r } = frame.outline
    const data = Uint8Array.from(frame.luma.data, (code, at) => {
      const [x, y] = [(at % 320) + 0.5, Math.floor(at / 320) + 0.5]
      const cover = Math.max(0, Math.min(1, r - Math.hypot(x - xPx, y - yPx) + 0.5))
      // The painted shell has codes of 120 and more, its spots 80 and less.
      const shell = 120 + 60 * Math.max(0, (yPx - y) / r)
      const ball = code < 100 ? 70 : shell
      return cover * ball + (1 - cover) * 120 + ((code * 31 + at * 17) % 5) - 2
    })
    return { ...frame, luma: { ...frame.luma, data } }
  })

  test('is found whole, from the track of the half that is seen', () => {
    const { tracks } = findTracks(faint.map(({ index, luma }) => ({ frame: index, luma })))
    expect(Math.max(...tracks.map(track => track.radiusPx))).toBeLessThan(0.85 * radiusPx)
    const flights = flightsIn(faint)
    expect(flights.length).toBeGreaterThan(0)
    for (const { outlines } of flights) {
      expect(outlines.length).toBeGreaterThanOrEqual(18)
      for (const { frame, outline } of outlines) {
        // Its lower rim shows by the spots that pass alone: a tenth of the radius is as much as can be asked.
        expect(apart(outline, frames[frame]!.outline)).toBeLessThan(0.1 * radiusPx)
        expect(Math.abs(outline.radiusPx / radiusPx - 1)).toBeLessThan(0.1)
      }
    }
  })
})
