import { describe, expect, test } from 'vitest'
import { findTracks } from '../../../core/vision/find/find-tracks.ts'
import { outlineFlight } from '../../../core/vision/find/outline-flight.ts'
import { painted, smallPicture as picture } from './painted-ball.ts'

const wall = Array.from({ length: 20 }, (_, i) =>
  painted({
    ...picture,
    outline: { xPx: -100, yPx: -100, radiusPx: 20 },
    turned: [0, 0, 0],
    spots: [],
    seed: i + 50,
  }),
)
/** Something that flies by: its code at a place from its middle, and how far it covers the wall's. */
type Drawn = (x: number, y: number, wallCode: number) => { code: number; cover: number }

const flown = (drawn: Drawn) =>
  wall.map((luma, frame) => {
    const data = Uint8Array.from(luma.data, (wallCode, at) => {
      const x = (at % 320) + 0.5 - (40 + 11 * frame)
      const y = Math.floor(at / 320) + 0.5 - 70
      const { code, cover } = drawn(x, y, wallCode)
      const covered = Math.max(0, Math.min(1, cover))
      return covered * code + (1 - covered) * wallCode
    })
    return { frame, timeSeconds: frame / picture.fps, luma: { ...luma, data } }
  })

/** What moves as a ball does, so that there is a track: its look must tell. */
function outlinesOf(drawn: Drawn) {
  const frames = flown(drawn)
  const { tracks } = findTracks(frames)
  expect(tracks.length).toBeGreaterThan(0)
  return tracks.map(track => outlineFlight(track, frames, picture))
}

/** A superellipse: 2 is an oval, 8 nearly a rectangle. */
const board =
  (halfLongPx: number, halfShortPx: number, power: number, leanRad: number): Drawn =>
  (x, y) => {
    const [cos, sin] = [Math.cos(leanRad), Math.sin(leanRad)]
    const [along, across] = [x * cos + y * sin, y * cos - x * sin]
    const out =
      (Math.abs(along / halfLongPx) ** power + Math.abs(across / halfShortPx) ** power) ** (1 / power)
    return { code: 150 + 2 * (Math.abs(along - 4) % 17), cover: (1 - out) * halfShortPx + 0.5 }
  }

describe('what flies by and is no ball', () => {
  test.each([
    ['a square board', board(24, 24, 8, 0)],
    ['an oval board', board(24, 18, 2, 0.5)],
    ['a long board with round corners', board(28, 18, 8, 0.3)],
    // Two thirds of it are as a ball would be: its corners, where a ball changes nothing, tell.
    ['a board that is nearly as wide as long', board(26, 20.8, 4, 0)],
    ['a square with round corners', board(26, 26, 4, 0.5)],
  ])('has no outline: %s', (_, drawn) => {
    expect(outlinesOf(drawn).every(found => found === null)).toBe(true)
  })

  test('a round disc of the same print has outlines', () => {
    expect(outlinesOf(board(24, 24, 2, 0)).some(found => found !== null)).toBe(true)
  })

  test.each([0.5, 0.25])('has no outline: a shadow that takes %d of the wall’s brightness', depth => {
    const shadow: Drawn = (x, y, wallCode) => ({
      code: wallCode * (1 - depth),
      cover: (20 - Math.hypot(x, y)) / 4 + 0.5,
    })
    expect(outlinesOf(shadow).every(found => found === null)).toBe(true)
  })
})
