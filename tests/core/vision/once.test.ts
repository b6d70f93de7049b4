import { expect, test } from 'vitest'
import { settled } from '../../../core/vision/find/held-apart.ts'
import { seenOnce } from '../../../core/vision/find/once.ts'
import type { Track } from '../../../core/vision/find/track.ts'

/** A ball on its way right, `offPx` lower than another. */
const track = (fromFrame: number, toFrame: number, offPx = 0): Track => ({
  radiusPx: 10,
  seen: Array.from({ length: toFrame - fromFrame + 1 }, (_, i) => {
    const frame = fromFrame + i
    return { frame, xPx: 20 * frame, yPx: 100 + offPx, widthPx: 20, heightPx: 20, areaPx: 314 }
  }),
})

test('keeps the longer of two tracks of one flight, whichever was found first', () => {
  // Against another background the same ball's middle lies a fraction of a pixel off.
  const [cut, whole] = [track(40, 59), track(42, 80, 0.4)]
  expect(seenOnce([cut, whole])).toEqual([whole])
  expect(seenOnce([whole, cut])).toEqual([whole])
  expect(seenOnce([cut, track(40, 59, 0.4)])).toEqual([cut])
})

test('keeps two balls, two flights of one ball, and tracks that share less than half', () => {
  for (const pair of [
    [track(40, 60), track(40, 60, 25)],
    [track(40, 60), track(61, 80)],
    [track(40, 60), track(52, 80)],
  ])
    expect(seenOnce(pair)).toEqual(pair)
})

test('a track is settled when nothing that is still to be seen can meet it', () => {
  const [early, before, after] = [track(10, 30), track(60, 80), track(84, 99)]
  // From frame 100 on more of `after` may come, and `before` meets it in a contact.
  expect(settled([early, before, after], 100)).toEqual([early])
  expect(settled([early, before], 100)).toEqual([early, before])
  expect(settled([early, before], 85)).toEqual([early])
  expect(settled([early, before, after], Number.POSITIVE_INFINITY)).toEqual([early, before, after])
})
