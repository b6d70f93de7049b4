import { describe, expect, test } from 'vitest'
import { whyNoFlight } from '../../../core/flight/no-flight.ts'
import { findTracks } from '../../../core/vision/find/find-tracks.ts'

const [widthPx, heightPx] = [320, 140]

/** A wall of light and dark squares, 8 px wide, drawn by seed (Park and Miller's generator, from memory). */
function squares(seed: number): (x: number, y: number) => number {
  const side = 200
  let state = seed
  const codes = Array.from({ length: side * side }, () => {
    state = (state * 48271) % 2147483647
    return 40 + (170 * state) / 2147483647
  })
  const at = (px: number) => Math.floor(px / 8) + side / 2
  return (x, y) => codes[at(y) * side + at(x)]!
}

/** No ball: the camera walks towards the wall, which grows by so much from frame to frame. */
const carried = (growth: number) => {
  const wall = squares(7)
  return Array.from({ length: 24 }, (_, frame) => {
    const size = growth ** frame
    const data = Uint8Array.from({ length: widthPx * heightPx }, (_, k) =>
      wall(((k % widthPx) - widthPx / 2) / size, (Math.floor(k / widthPx) - heightPx / 2) / size),
    )
    return { frame, luma: { xPx: 0, yPx: 0, widthPx, heightPx, data } }
  })
}

describe('a camera that is carried', () => {
  // At one percent parts of the picture stay alike, at ten no two frames are of one view.
  test.each([1.01, 1.04, 1.1])(
    'so that the picture grows by a factor of %d a frame is named as the reason',
    growth => {
      const { tracks, moved } = findTracks(carried(growth))
      expect(tracks).toEqual([])
      const { reason, tip } = whyNoFlight(moved, tracks.length)
      expect(reason).toBe(
        'No ball was seen by itself: nearly all of the picture moves, so the camera was bumped or carried.',
      )
      expect(tip).toMatch(/Put the camera on a stand.*; or mark the ball by hand\.$/)
    },
  )

  test('is not blamed for a clip in which nothing moves', () => {
    const { tracks, moved } = findTracks(carried(1))
    expect(whyNoFlight(moved, tracks.length).reason).toMatch(/nothing in these frames moves/)
  })
})
