import { describe, expect, it } from 'vitest'
import { FrameCache } from '../../../renderer/screens/bench/picture/frame-cache.ts'
import { loadingOrder } from '../../../renderer/screens/bench/picture/loading-order.ts'

/** Pictures that come when the test says so. */
function slowPictures(room: number, parallel = 2) {
  const asked: number[] = []
  const closed: number[] = []
  const waiting = new Map<number, { give: () => void; fail: () => void; signal: AbortSignal }>()
  const cache = new FrameCache(
    (frame, signal) =>
      new Promise<{ frame: number; close(): void }>((resolve, reject) => {
        asked.push(frame)
        waiting.set(frame, {
          give: () => resolve({ frame, close: () => closed.push(frame) }),
          fail: () => reject(new Error('no such frame')),
          signal,
        })
      }),
    room,
    parallel,
  )
  const settle = () => new Promise(done => setTimeout(done, 0))
  const give = async (...frames: number[]) => {
    for (const frame of frames) {
      waiting.get(frame)!.give()
      await settle()
    }
  }
  return { cache, asked, closed, waiting, give, settle }
}

describe('the order in which frames are loaded', () => {
  it('begins with the frame looked at and runs ahead in the direction of stepping', () => {
    expect(loadingOrder(10, 1, { fromFrame: 5, toFrame: 20 }, 6)).toEqual([10, 11, 12, 13, 9, 14])
    expect(loadingOrder(10, -1, { fromFrame: 5, toFrame: 20 }, 5)).toEqual([10, 9, 8, 7, 11])
  })

  it('names every frame of the range once when there is room', () => {
    const order = loadingOrder(8, -1, { fromFrame: 3, toFrame: 17 }, 100)
    expect(order.toSorted((a, b) => a - b)).toEqual(Array.from({ length: 15 }, (_, i) => i + 3))
  })
})

describe('decoded pictures at hand', () => {
  it('are loaded a few at a time, the most wanted first', async () => {
    const { cache, asked, give } = slowPictures(10)
    cache.want([4, 5, 6, 7])
    expect(asked).toEqual([4, 5])
    await give(4)
    expect(asked).toEqual([4, 5, 6])
    expect(cache.get(4)?.frame).toBe(4)
    expect(cache.get(5)).toBeNull()
  })

  it('make room by letting go what was longest not looked at and is not wanted', async () => {
    const { cache, closed, give } = slowPictures(2)
    cache.want([1, 2])
    await give(1, 2)
    cache.get(1)
    cache.want([1, 3])
    await give(3)
    expect(closed).toEqual([2])
    expect(cache.get(1)?.frame).toBe(1)
    expect(cache.get(3)?.frame).toBe(3)
  })

  it('are no longer waited for once the eye is elsewhere', () => {
    const { cache, waiting } = slowPictures(10)
    cache.want([1, 2])
    cache.want([50, 51])
    expect(waiting.get(1)!.signal.aborted).toBe(true)
  })

  it('say why one cannot be had, and try again when the eye comes back', async () => {
    const { cache, asked, waiting, settle } = slowPictures(10, 1)
    cache.want([1, 2])
    waiting.get(1)!.fail()
    await settle()
    expect(cache.failure(1)).toBeInstanceOf(Error)
    expect(asked).toEqual([1, 2])
    cache.want([2, 1])
    await waiting.get(2)!.give()
    await settle()
    expect(asked).toEqual([1, 2, 1])
  })

  it('are all given back when the clip is closed, late ones too', async () => {
    const { cache, closed, give } = slowPictures(10)
    cache.want([1, 2])
    await give(1)
    cache.close()
    await give(2)
    expect(closed.toSorted()).toEqual([1, 2])
  })
})
