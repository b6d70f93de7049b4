import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import type { Track } from '../../../core/vision/find/track.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import { places } from '../../../electron/service/places.ts'
import { cropsOf, viewOf, viewsTogether } from '../../../electron/vision/crops.ts'

const media = createMedia()
afterAll(() => media.close())
const path = join(places.samples, 'contact-240.mp4')

const track = (fromFrame: number, frames: number, yPx: number): Track => ({
  radiusPx: 20,
  seen: Array.from({ length: frames }, (_, i) => {
    return { frame: fromFrame + i, xPx: 200 + 12 * i, yPx, widthPx: 40, heightPx: 40, areaPx: 1256 }
  }),
})

describe('full-size pictures of flights', () => {
  test('decoded once for two are what each gets alone', async () => {
    const clip = await media.probe(path)
    const whole = { fromFrame: 0, toFrame: clip.frames - 1 }
    const views = [viewOf(track(8, 10, 150), clip, whole), viewOf(track(25, 12, 320), clip, whole)]
    const times = await media.timestamps(path)
    const together = await cropsOf(media, path, clip, views, times)
    // Six frames beyond on either side.
    expect(together.map(crops => [crops[0]!.frame, crops.at(-1)!.frame])).toEqual([
      [2, 23],
      [19, 42],
    ])
    for (const [i, { window, crop }] of views.entries()) {
      // Cut by the decoder itself.
      const alone: { frame: number; data: Uint8Array }[] = []
      for await (const one of media.lumaWindow(path, window, { crop })) alone.push(one)
      expect(together[i]!.map(({ frame }) => frame)).toEqual(alone.map(({ frame }) => frame))
      const unlike = together[i]!.filter(({ luma }, k) =>
        Buffer.compare(luma.data as Uint8Array, alone[k]!.data),
      )
      expect(unlike).toHaveLength(0)
    }
  })

  test('are decoded together where flights follow one another, apart where they are far or too large', async () => {
    const clip = { ...(await media.probe(path)), frames: 4000 }
    const whole = { fromFrame: 0, toFrame: 3999 }
    const [a, b, far] = [track(8, 20, 150), track(40, 20, 200), track(400, 20, 150)].map(one =>
      viewOf(one, clip, whole),
    )
    expect(viewsTogether([a!, b!, far!], 1)).toEqual([
      { views: [a, b], shares: 1 },
      { views: [far], shares: 1 },
    ])
    // A picture of 6000 × 4000 around the whole of it: 24 MB a frame, 32 frames of one flight are over the limit.
    const large = [track(8, 20, 150), track(40, 20, 200)].map(one => ({
      ...viewOf(one, clip, whole),
      crop: { xPx: 0, yPx: 0, widthPx: 6000, heightPx: 4000 },
    }))
    expect(viewsTogether(large, 1)).toHaveLength(2)
    // 2 × 32 × 24 MB are 9.2 times 160 MiB.
    expect(viewsTogether(large, 16)).toEqual([{ views: large, shares: 10 }])
    expect(viewsTogether([], 1)).toEqual([])
  })
})
