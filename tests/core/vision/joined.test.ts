import { describe, expect, test } from 'vitest'
import { joined } from '../../../core/vision/find/joined.ts'

const radiusPx = 60
/** A throw in the picture: 21 px a frame to the left, falling at 0.4 px a frame² (gravity at 240 fps and 2300 px a metre). */
const thrown = (frame: number) => ({ xPx: 900 - 21 * frame, yPx: 200 + 0.2 * (frame - 15) ** 2 })
const pieceOf = (from: number, to: number, { dy = 0, r = radiusPx, at = thrown } = {}) => ({
  radiusPx: r,
  seen: Array.from({ length: to - from + 1 }, (_, i) => {
    const { xPx, yPx } = at(from + i)
    return { frame: from + i, xPx, yPx: yPx + dy, widthPx: 2 * r, heightPx: 2 * r, areaPx: Math.PI * r ** 2 }
  }),
})
const framesOf = (tracks: ReturnType<typeof joined>) =>
  tracks.map(({ seen }) => [seen[0]!.frame, seen.at(-1)!.frame])

describe('pieces of one flight, lost before a like-coloured part of the wall', () => {
  test('are one track', () => {
    expect(framesOf(joined([pieceOf(0, 10), pieceOf(23, 30), pieceOf(33, 44)]))).toEqual([[0, 44]])
  })

  test('are one track where the upper half alone was seen at first: its middle is 0.4 radii higher', () => {
    const upper = pieceOf(0, 10, { dy: -0.4 * radiusPx, r: 48 })
    const [track, ...more] = joined([upper, pieceOf(20, 30)])
    expect(more).toEqual([])
    expect(track!.radiusPx).toBe(radiusPx)
  })

  test('go on with the nearest of two that were seen before', () => {
    const [upper, lower] = [-0.5, 0.4].map(dy => pieceOf(0, 10, { dy: dy * radiusPx, r: 48 }))
    const tracks = joined([upper!, lower!, pieceOf(15, 30)])
    expect(framesOf(tracks)).toEqual([
      [0, 10],
      [0, 30],
    ])
  })
})

describe('tracks stay as they are', () => {
  const before = pieceOf(0, 10)
  test.each([
    [
      'a ball that comes back from a contact',
      pieceOf(13, 24, { at: f => ({ ...thrown(24 - f), yPx: 200 }) }),
    ],
    ['one that passes elsewhere', pieceOf(14, 24, { dy: 2.5 * radiusPx })],
    ['one of another size', pieceOf(14, 24, { r: 30 })],
    ['one that comes much later', pieceOf(30, 44)],
    ['one that is there at the same time', pieceOf(8, 24)],
  ])('with %s', (_, after) => {
    expect(joined([before, after])).toEqual([before, after])
  })
})
