import { describe, expect, test } from 'vitest'
import { contactBetween } from '../../../core/flight/contact-between.ts'
import { heldApart } from '../../../core/vision/find/held-apart.ts'
import type { Track } from '../../../core/vision/find/track.ts'

const contact = { atFrame: 26.3, xPx: 100, yPx: 100 }
/** The ball's middle in a frame: 12 px a frame to the left before the contact, 20 px to the right and 3 up after it. */
const placeIn = (frame: number, isAfter = frame > contact.atFrame) => ({
  frame,
  xPx: contact.xPx + (isAfter ? 20 : -12) * (frame - contact.atFrame),
  yPx: contact.yPx - (isAfter ? 3 : 0) * (frame - contact.atFrame),
})
const outlineIn = (frame: number, isAfter?: boolean) => {
  const { xPx, yPx } = placeIn(frame, isAfter)
  return {
    frame,
    outline: { xPx, yPx, radiusPx: 40 },
    centreUncertaintyPx: 0.2,
    radiusUncertaintyPx: 0.2,
  }
}
const framesFrom = (first: number, last: number) =>
  Array.from({ length: last - first + 1 }, (_, i) => first + i)
const before = framesFrom(18, 24).map(frame => outlineIn(frame))
const after = framesFrom(28, 34).map(frame => outlineIn(frame))

describe('the contact between two flights', () => {
  test('is where the paths meet, between the last frame before and the first after', () => {
    const found = contactBetween(before, after)!
    expect(found).toMatchObject({ lastFrameBefore: 26, firstFrameAfter: 27 })
    expect(found.atFrame).toBeCloseTo(contact.atFrame, 6)
  })

  test('is found where both flights took the frame beside it for theirs', () => {
    // Drawn on past the contact: the first flight's frame 27 and the second one's 26 lie where no ball is.
    const longer = [...framesFrom(18, 26).map(frame => outlineIn(frame)), outlineIn(27, false)]
    const earlier = [outlineIn(26, true), ...framesFrom(27, 34).map(frame => outlineIn(frame))]
    expect(contactBetween(longer, earlier)).toMatchObject({ lastFrameBefore: 26, firstFrameAfter: 27 })
  })

  test('is none where one flight was lost on the way and goes on', () => {
    const goesOn = framesFrom(28, 34).map(frame => outlineIn(frame, false))
    expect(contactBetween(before, goesOn)).toBeNull()
  })

  test('is none with what passes elsewhere, is of another size, or comes much later', () => {
    const moved = (by: Partial<{ yPx: number; radiusPx: number }>, frames = 0) =>
      after.map(one => ({
        ...one,
        frame: one.frame + frames,
        outline: { ...one.outline, yPx: one.outline.yPx + (by.yPx ?? 0), radiusPx: by.radiusPx ?? 40 },
      }))
    expect(contactBetween(before, moved({ yPx: 60 }))).toBeNull()
    expect(contactBetween(before, moved({ radiusPx: 25 }))).toBeNull()
    expect(contactBetween(before, moved({}, 20))).toBeNull()
  })
})

describe('tracks that meet in a contact', () => {
  const trackOf = (frames: number[], isAfter?: boolean): Track => ({
    radiusPx: 40,
    seen: frames.map(frame => ({ ...placeIn(frame, isAfter), widthPx: 80, heightPx: 80, areaPx: 5027 })),
  })

  test('are each held to their own side of it', () => {
    const [first, second] = heldApart([trackOf(framesFrom(18, 24)), trackOf(framesFrom(28, 34))])
    expect([first!.fromFrame, first!.toFrame]).toEqual([undefined, 26])
    expect([second!.fromFrame, second!.toFrame]).toEqual([27, undefined])
  })

  test('are left as they are where one goes on as the other did', () => {
    const two = [trackOf(framesFrom(18, 22), false), trackOf(framesFrom(25, 34), false)]
    expect(heldApart(two)).toEqual(two)
  })
})
