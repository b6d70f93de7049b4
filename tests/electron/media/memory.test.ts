import { describe, expect, test } from 'vitest'
import { Arena } from '../../../electron/media/arena.ts'
import { PictureCache } from '../../../electron/media/picture-cache.ts'
import { missingAhead, runAround, walked } from '../../../electron/media/plan-run.ts'

const nothingThere = () => false

describe('a walk', () => {
  test('begins where someone arrives, and goes the way they step', () => {
    const arrived = walked(undefined, 100, 20)
    expect(arrived).toEqual({ frame: 100, direction: 0 })
    expect(walked(arrived, 101, 20)).toEqual({ frame: 101, direction: 1 })
    expect(walked(arrived, 95, 20)).toEqual({ frame: 95, direction: -1 })
  })

  test('keeps its way when the same frame is asked for again, and ends with a leap', () => {
    const walk = walked(walked(undefined, 100, 20), 99, 20)
    expect(walked(walk, 99, 20).direction).toBe(-1)
    expect(walked(walk, 500, 20)).toEqual({ frame: 500, direction: 0 })
  })
})

describe('the frames to decode for one that is missing', () => {
  test.each([
    ['ahead, going forwards', 1, { fromFrame: 100, toFrame: 139 }],
    ['behind, going backwards', -1, { fromFrame: 61, toFrame: 100 }],
    ['mostly ahead, on arrival', 0, { fromFrame: 90, toFrame: 129 }],
  ] as const)('lie %s', (_, direction, window) => {
    expect(runAround(100, direction, 40, 1000, nothingThere)).toEqual(window)
  })

  test('stay inside the clip', () => {
    expect(runAround(3, -1, 40, 1000, nothingThere)).toEqual({ fromFrame: 0, toFrame: 3 })
    expect(runAround(998, 1, 40, 1000, nothingThere)).toEqual({ fromFrame: 998, toFrame: 999 })
    expect(runAround(0, 0, 40, 1, nothingThere)).toEqual({ fromFrame: 0, toFrame: 0 })
  })

  test('leave out what is there already at either end', () => {
    expect(runAround(100, 0, 40, 1000, n => n < 95 || n > 120)).toEqual({ fromFrame: 95, toFrame: 120 })
  })
})

describe('reading ahead', () => {
  const upTo = (last: number) => (n: number) => n <= last
  test('begins at the first frame that is missing near by, on the way', () => {
    expect(missingAhead({ frame: 100, direction: 1 }, 20, 1000, upTo(110))).toBe(111)
    expect(missingAhead({ frame: 100, direction: -1 }, 20, 1000, n => n > 95)).toBe(95)
  })

  test('has nothing to do on arrival, far from the edge, or at the end of the clip', () => {
    expect(missingAhead({ frame: 100, direction: 0 }, 20, 1000, nothingThere)).toBeNull()
    expect(missingAhead({ frame: 100, direction: 1 }, 20, 1000, upTo(120))).toBeNull()
    expect(missingAhead({ frame: 999, direction: 1 }, 20, 1000, nothingThere)).toBeNull()
  })
})

describe('pictures in memory', () => {
  const picture = (value: number, bytes = 10) => new Uint8Array(bytes).fill(value)

  test('stay within the budget; the stretch that was not looked at for longest goes first', () => {
    const cache = new PictureCache(160) // 16 pictures of 10 bytes, in stretches of 2
    for (let n = 0; n < 16; n++) cache.put('clip', n, picture(n))
    expect(cache.lend('clip', 0, 10)?.data).toEqual(picture(0))
    for (let n = 16; n < 20; n++) cache.put('clip', n, picture(n))
    const there = Array.from({ length: 20 }, (_, n) => n).filter(n => cache.has('clip', n, 10))
    expect(there).toEqual([0, 1, ...Array.from({ length: 14 }, (_, i) => i + 6)])
  })

  test('of another clip or another size are others', () => {
    const cache = new PictureCache(1000)
    cache.put('clip', 0, picture(1))
    expect(cache.lend('other', 0, 10)).toBeUndefined()
    expect(cache.lend('clip', 0, 20)).toBeUndefined()
  })

  test('put twice are held once', () => {
    const cache = new PictureCache(40)
    for (let i = 0; i < 50; i++) cache.put('clip', 0, picture(i))
    cache.put('clip', 1, picture(7))
    expect(cache.lend('clip', 0, 10)?.data).toEqual(picture(49))
    expect(cache.has('clip', 1, 10)).toBe(true)
  })

  test('larger than all memory are still held one at a time', () => {
    const cache = new PictureCache(5)
    cache.put('clip', 0, picture(0))
    cache.put('clip', 1, picture(1))
    expect([cache.has('clip', 0, 10), cache.has('clip', 1, 10)]).toEqual([false, true])
  })
})

describe('the memory of large pictures', () => {
  const bytes = 300_000
  const place = (picture: Uint8Array) => picture.byteOffset

  test('is one piece that is cut anew only when none of it is in use', () => {
    const arena = new Arena(4 * bytes)
    const pictures = Array.from({ length: 4 }, () => arena.take(bytes))
    expect(new Set(pictures.map(p => p.buffer)).size).toBe(1)
    expect(new Set(pictures.map(place)).size).toBe(4)
    expect(arena.take(2 * bytes).buffer).not.toBe(pictures[0]!.buffer)
    for (const picture of pictures) arena.give(picture)
    expect(arena.take(2 * bytes).buffer).toBe(pictures[0]!.buffer)
  })

  test('goes to the next picture when one is dropped, unless it is on loan, and then when it is given back', () => {
    const cache = new PictureCache(2 * bytes)
    const put = (frame: number) => {
      const room = cache.room(bytes)
      cache.put('clip', frame, room.fill(frame))
      return room
    }
    const first = put(1)
    const loan = cache.lend('clip', 1, bytes)!
    const again = cache.lend('clip', 1, bytes)!
    // Seven rooms there are: two to hold, five for pictures under way.
    const used = new Set(Array.from({ length: 40 }, (_, i) => place(put(i + 2))))
    expect(used.has(place(first))).toBe(false)
    expect(loan.data.every(value => value === 1)).toBe(true)
    loan.done()
    loan.done()
    for (let i = 0; i < 40; i++) expect(place(put(i + 50))).not.toBe(place(first))
    again.done()
    expect(Array.from({ length: 40 }, (_, i) => place(put(i + 100)))).toContain(place(first))
  })

  test('is not lost when decoding ends with rooms that were not needed', () => {
    const cache = new PictureCache(2 * bytes)
    const piece = cache.room(bytes).buffer
    for (let i = 0; i < 100; i++) {
      const rooms = [cache.room(bytes), cache.room(bytes), cache.room(bytes)]
      expect(rooms.every(room => room.buffer === piece)).toBe(true)
      for (const room of rooms) cache.spare(room)
    }
  })
})
