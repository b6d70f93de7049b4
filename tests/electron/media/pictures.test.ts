import { execFileSync } from 'node:child_process'
import { afterAll, describe, expect, test, vi } from 'vitest'
import type { Progress } from '../../../core/contract/calls.ts'
import { Children } from '../../../electron/media/children.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { LumaFrame, LumaOptions, Media } from '../../../electron/media/media.ts'
import { builds, makers } from './builds.ts'
import { Clips, decodeWhole, h264, hashOf, hevc, turned } from './clips.ts'

const clips = new Clips()
afterAll(() => clips.remove())
const film = () => clips.film('film.mp4', h264())
const window = { fromFrame: 21, toFrame: 24 }

async function lumaOf(media: Media, path: string, options: LumaOptions = {}): Promise<LumaFrame[]> {
  const frames: LumaFrame[] = []
  for await (const frame of media.lumaWindow(path, window, options)) frames.push(frame)
  return frames
}

/** The brightness plane of each picture, straight from the decoder, rows first; `then` is done with it. */
function planes(path: string, rowBytes: number, rows: number, then = ''): Buffer[] {
  const words = [
    '-v',
    'error',
    '-i',
    path,
    ...makers.everyFrame,
    '-vf',
    `extractplanes=y${then}`,
    '-f',
    'rawvideo',
    '-',
  ]
  const bytes = execFileSync(makers.ffmpeg.path, words, { maxBuffer: 1 << 28 })
  const size = rowBytes * rows
  return Array.from({ length: bytes.length / size }, (_, n) => bytes.subarray(n * size, (n + 1) * size))
}

describe.each(builds)('with the programs of %s', programs => {
  const media = createMedia({ programs })
  afterAll(() => media.close())

  test('brightness is the plane as decoded, full range and odd sizes among it', async () => {
    const full = clips.film('full.mkv', h264('-pix_fmt', 'yuvj420p', '-qp', '0'))
    for (const path of [film(), full, clips.copy(film(), 'turned.mp4', turned(90))]) {
      const frames = await lumaOf(media, path)
      const { widthPx, heightPx } = frames[0]!
      const whole = planes(path, widthPx, heightPx)
      expect(frames.map(f => f.frame)).toEqual([21, 22, 23, 24])
      expect(frames.map(f => hashOf(f.data))).toEqual(whole.slice(21, 25).map(hashOf))
    }
  })

  test('a part of the picture is that part to the pixel, at odd places too', async () => {
    const crop = { xPx: 31, yPx: 17, widthPx: 33, heightPx: 21 }
    const [first] = await lumaOf(media, film(), { crop })
    const plane = planes(film(), 160, 96)[21]!
    const part = Array.from({ length: 21 }, (_, y) =>
      plane.subarray((17 + y) * 160 + 31, (17 + y) * 160 + 64),
    )
    expect(first).toMatchObject({ frame: 21, widthPx: 33, heightPx: 21 })
    expect(hashOf(first!.data)).toBe(hashOf(Buffer.concat(part)))
  })

  test('brightness scaled down is the mean of the pixels it stands for', async () => {
    const [first] = await lumaOf(media, film(), { maxWidthPx: 40 })
    const plane = planes(film(), 160, 96)[21]!
    expect([first!.widthPx, first!.heightPx]).toEqual([40, 24])
    for (const [x, y] of [
      [0, 0],
      [7, 11],
      [39, 23],
      [20, 5],
    ] as const) {
      let sum = 0
      for (let dy = 0; dy < 4; dy++)
        for (let dx = 0; dx < 4; dx++) sum += plane[(4 * y + dy) * 160 + 4 * x + dx]!
      expect(Math.abs(first!.data[y * 40 + x]! - sum / 16)).toBeLessThan(1.5)
    }
  })

  test('brightness scaled down keeps its range, as the plane does that is scaled alone', async () => {
    const full = clips.film('full.mkv', h264('-pix_fmt', 'yuvj420p', '-qp', '0'))
    const fine = clips.film('fine.mkv', h264('-pix_fmt', 'yuv444p', '-qp', '0'))
    for (const path of [film(), full, fine]) {
      const frames = await lumaOf(media, path, { maxWidthPx: 40 })
      const small = planes(path, 40, 24, ',scale=40:24:flags=area')
      expect(frames.map(f => hashOf(f.data))).toEqual(small.slice(21, 25).map(hashOf))
    }
  })

  test('brightness with ten bits is brought to eight', async () => {
    const deep = clips.film('deep.mp4', hevc('-pix_fmt', 'yuv420p10le'))
    const [first] = await lumaOf(media, deep)
    const plane = planes(deep, 320, 96)[21]!
    const off = Array.from(first!.data, (value, i) => Math.abs(value - plane.readUInt16LE(2 * i) / 4))
    expect(first!.data.length).toBe(160 * 96)
    expect(Math.max(...off)).toBeLessThanOrEqual(1)
  })

  test('a picture is no wider than asked, and even', async () => {
    for (const [maxWidthPx, size] of [
      [80, [80, 48]],
      [77, [76, 46]],
      [1, [2, 2]],
      [500, [160, 96]],
    ] as const) {
      const { widthPx, heightPx, data } = await media.frame(film(), 30, { maxWidthPx })
      expect([widthPx, heightPx, data.length]).toEqual([...size, (size[0] * size[1] * 3) / 2])
    }
  })

  test('pixels that are not square are shown so, and odd rows are left out', async () => {
    const wide = clips.film('wide.mkv', h264('-aspect', '10:3'))
    const clip = await media.probe(wide)
    expect([clip.widthPx, clip.heightPx]).toEqual([320, 96])
    expect(await media.frame(wide, 3)).toMatchObject({ widthPx: 320, heightPx: 96 })

    const odd = clips.film('odd.mkv', ['-c:v', 'ffv1', '-pix_fmt', 'yuv444p'], ['scale=95:63', 'setsar=1'])
    expect(await media.probe(odd)).toMatchObject({ widthPx: 94, heightPx: 62 })
    const luma = await lumaOf(media, odd)
    const plane = planes(odd, 95, 63)[21]!
    const rows = Array.from({ length: 62 }, (_, y) => plane.subarray(95 * y, 95 * y + 94))
    expect(hashOf(luma[0]!.data)).toBe(hashOf(Buffer.concat(rows)))
  })
})

describe('pictures from memory', () => {
  const media = createMedia({ programs: 'packages' })
  afterAll(() => media.close())

  test('a prepared window answers without decoding, and says how far it is', async () => {
    const heard: Progress[] = []
    await media.prepare(film(), { fromFrame: 10, toFrame: 50 }, { progress: p => heard.push(p) })
    expect(heard.at(-1)).toEqual({ what: 'Decoding', done: 41, total: 41 })
    const starts = vi.spyOn(Children.prototype, 'start')
    for (let n = 10; n <= 50; n++) await media.frame(film(), n)
    // Not one start a picture; what lies beyond the window may be read ahead meanwhile.
    expect(starts.mock.calls.length).toBeLessThan(5)
    starts.mockRestore()
  })

  test('a picture on loan stays as it was, whatever is decoded later', async () => {
    // Large enough to lie in the memory that is used again.
    const path = clips.film('large.mp4', h264(), ['scale=640:384'])
    const whole = decodeWhole(path)
    const small = createMedia({ programs: 'packages', budgetBytes: 8 * whole.widthPx * whole.heightPx * 1.5 })
    const held = await Promise.all([3, 4, 5].map(async n => [n, await small.frame(path, n)] as const))
    for (const fromFrame of [10, 20, 30, 40]) {
      await small.prepare(path, { fromFrame, toFrame: fromFrame + 7 })
      for (let n = fromFrame; n < fromFrame + 8; n++) {
        const { data, done } = await small.frame(path, n)
        expect([n, hashOf(data)]).toEqual([n, whole.hashes[n]])
        done?.()
      }
    }
    for (const [n, { data }] of held) expect(hashOf(data)).toBe(whole.hashes[n])
    await small.close()
    for (const [n, { data }] of held) expect(hashOf(data)).toBe(whole.hashes[n])
  })

  test('a file that was replaced is not shown from memory', async () => {
    const path = clips.rename(film(), 'swapped.mp4')
    await media.frame(path, 5)
    clips.rename(clips.film('other.mp4', h264(), ['hflip']), 'swapped.mp4')
    const whole = decodeWhole(clips.path('other.mp4'))
    expect(hashOf((await media.frame(path, 5)).data)).toBe(whole.hashes[5])
  })

  test('many who ask at once get their own frames', async () => {
    const fresh = createMedia({ programs: 'packages' })
    const whole = decodeWhole(film())
    const asked = Array.from({ length: 60 }, (_, n) => (n * 37) % 60)
    const pictures = await Promise.all(asked.map(n => fresh.frame(film(), n)))
    expect(pictures.map(p => hashOf(p.data))).toEqual(asked.map(n => whole.hashes[n]))
    await fresh.close()
  })

  test('walking forwards and backwards with little memory, every frame is right', async () => {
    const whole = decodeWhole(film())
    const small = createMedia({
      programs: 'packages',
      budgetBytes: 16 * whole.widthPx * whole.heightPx * 1.5,
    })
    const walk = [...Array(60).keys(), ...[...Array(60).keys()].reverse()]
    for (const n of walk)
      expect([n, hashOf((await small.frame(film(), n)).data)]).toEqual([n, whole.hashes[n]])
    await small.close()
  })

  test('where there are no local sockets, the ordinary pipe gives the same', async () => {
    const whole = decodeWhole(film())
    const plain = createMedia({ programs: 'packages' })
    await plain.timestamps(film())
    vi.spyOn(process, 'platform', 'get').mockReturnValue('win32')
    try {
      for (const n of [59, 30, 0]) expect(hashOf((await plain.frame(film(), n)).data)).toBe(whole.hashes[n])
      const luma = await lumaOf(plain, film())
      expect(luma.map(f => f.frame)).toEqual([21, 22, 23, 24])
    } finally {
      vi.restoreAllMocks()
      await plain.close()
    }
  })
})
