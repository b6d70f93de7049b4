import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { decode } from 'fast-png'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { problemSchema } from '../../../core/contract/problem.ts'
import { type ClipFormat, type ClipView, clipOrderSchema, usualClip } from '../../../core/contract/publish.ts'
import type { BenchHit } from '../../../core/contract/workspace.ts'
import { linearLeastSquares } from '../../../core/numerics/linear-least-squares.ts'
import { i420ToRgba } from '../../../core/picture/i420.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { AppHost } from '../../../electron/service/app-host.ts'
import { said } from '../cli/stand-in-world.ts'
import { markedSample } from './marked-sample.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-clips-'))
const workspaceFile = join(folder, 'workspace.sqlite')
const media = createMedia()
let host: AppHost
let hit: BenchHit
const context = (signal = new AbortController().signal) => ({ signal, progress: () => {} })

beforeAll(async () => {
  const marked = await markedSample(workspaceFile)
  host = marked.host
  hit = marked.hit
})
afterAll(async () => {
  await host.close()
  await media.close()
  rmSync(folder, { recursive: true })
})

async function filmed(view: ClipView, format: ClipFormat, shortPx: number): Promise<string> {
  const order = clipOrderSchema.parse({ ...usualClip, hitId: hit.row.hitId, view, shortPx, format })
  const { base64 } = await host.service['publish.clip'](order, context())
  const path = join(folder, `${view}-${shortPx}.${format}`)
  writeFileSync(path, Buffer.from(base64, 'base64'))
  return path
}

async function probed(path: string) {
  const { ffprobe } = await media.programs()
  const words = ['-v', 'error', '-count_frames', '-show_streams', '-of', 'json', path]
  const { stdout } = spawnSync(ffprobe.path, words, { encoding: 'utf8' })
  return (JSON.parse(stdout) as { streams: Record<string, string | number>[] }).streams
}
const framesOf = ({ row: { window } }: BenchHit) => window.toFrame - window.fromFrame + 1

describe('an annotated clip', () => {
  it.each([
    ['frame', 640, 360],
    ['both', 1000, 360],
    ['portrait', 360, 640],
  ] as const)(
    'of %s is H.264, 4:2:0, BT.709, a picture a frame, at an eighth of 240 fps',
    async (view, width, height) => {
      const path = await filmed(view, 'mp4', 360)
      const streams = await probed(path)
      expect(streams).toHaveLength(1)
      expect(streams[0]).toMatchObject({
        ...{ codec_name: 'h264', pix_fmt: 'yuv420p', width, height },
        ...{ r_frame_rate: '30/1', color_space: 'bt709', nb_read_frames: String(framesOf(hit)) },
      })
      // Its index stands before its pictures: a player starts before the file has come in whole (ISO/IEC 14496-12).
      const bytes = readFileSync(path).toString('latin1')
      expect(bytes.indexOf('moov')).toBeLessThan(bytes.indexOf('mdat'))
    },
  )
  it('as GIF has its size and all of its frames', async () => {
    const [stream] = await probed(await filmed('ball', 'gif', 240))
    expect(stream).toMatchObject({ codec_name: 'gif', width: 240, height: 240 })
    expect(stream!.nb_read_frames).toBe(String(framesOf(hit)))
  })

  it('as WebP moves through all of its frames, upright', async () => {
    const bytes = readFileSync(await filmed('portrait', 'webp', 240))
    // WebP container specification, "Extended File Format": RIFF header, chunks ANMF, width and height less one.
    expect(bytes.toString('latin1', 0, 4) + bytes.toString('latin1', 8, 16)).toBe('RIFFWEBPVP8X')
    expect([bytes.readUIntLE(24, 3) + 1, bytes.readUIntLE(27, 3) + 1]).toEqual([240, 426])
    expect(bytes.toString('latin1').match(/ANMF/g)).toHaveLength(framesOf(hit))
  })
  it('that would run faster than players show is slower instead, every frame shown, and says so', async () => {
    const order = clipOrderSchema.parse({
      ...usualClip,
      hitId: hit.row.hitId,
      slowed: 1,
      shortPx: 240,
      format: 'mp4',
    })
    const { base64, notes } = await host.service['publish.clip'](order, context())
    expect(notes.join()).toContain('Slowed 4 times instead of 1')
    const path = join(folder, 'fast.mp4')
    writeFileSync(path, Buffer.from(base64, 'base64'))
    const [stream] = await probed(path)
    expect(stream).toMatchObject({ r_frame_rate: '60/1', nb_read_frames: String(framesOf(hit)) })
  })
  it('shows one frame of itself before it is made: the same picture, in the colours asked for', async () => {
    const ink = { outline: '#ffffff', mark: '#00ff00', axis: '#0000ff' }
    const order = clipOrderSchema.parse({
      ...usualClip,
      hitId: hit.row.hitId,
      ink,
      shortPx: 240,
      format: 'gif',
    })
    const { base64, mediaType } = await host.service['publish.clipFrame']({ order, frame: 3 }, context())
    const png = decode(Buffer.from(base64, 'base64'))
    expect([mediaType, png.width, png.height]).toEqual(['image/png', 426, 240])
    let green = 0
    for (let i = 0; i < png.data.length; i += png.channels)
      if (png.data[i]! < 90 && png.data[i + 1]! > 170 && png.data[i + 2]! < 90) green++
    expect(green).toBeGreaterThan(4)
  })

  it('has each mark drawn within a pixel of where it was seen, in the frame in which it was seen', async () => {
    // At the clip's own size, so that px are px.
    const clip = await host.service['clips.open']({ clipId: hit.row.clipId }, context())
    const path = await filmed('frame', 'mp4', clip.clip.probe!.heightPx)
    const { fromFrame } = hit.row.window
    const points = hit.marks.sightings.filter(seen => seen.kind === 'point')
    const alone = points.filter(
      ({ frame, xPx, yPx }) =>
        !points.some(
          other =>
            other.frame === frame && other.xPx !== xPx && Math.hypot(other.xPx - xPx, other.yPx - yPx) < 24,
        ),
    )
    expect(alone.length).toBeGreaterThan(8)
    for (const { frame, xPx, yPx } of alone) {
      const drawn = ringThrough(await pixelsOf(path, frame - fromFrame, { xPx, yPx }, 11, isMarkColour))
      expect(Math.hypot(drawn.xPx - xPx, drawn.yPx - yPx)).toBeLessThan(1)
    }
  })
  it('is drawn over the frame in which the ball is: the red dot lies in its ring', async () => {
    const clip = await host.service['clips.open']({ clipId: hit.row.clipId }, context())
    const { path, probe } = clip.clip
    const film = await filmed('frame', 'mp4', probe!.heightPx)
    let found = 0
    for (const seen of hit.marks.sightings) {
      if (seen.kind !== 'point') continue
      const red = await middleOf(
        path,
        seen.frame,
        seen,
        7,
        ([r, g, b]) => r > 1.7 * g && r > 1.7 * b && r > 60,
      ).catch(() => null)
      if (red === null) continue
      const drawn = await middleOf(film, seen.frame - hit.row.window.fromFrame, seen, 11, isMarkColour)
      // A click lies within a few px of the dot; a frame early or late the ball would be 30 px away.
      expect(Math.hypot(drawn.xPx - red.xPx, drawn.yPx - red.yPx)).toBeLessThan(5)
      found++
    }
    expect(found).toBeGreaterThan(4)
  })
  it('is the same bytes twice', async () => {
    const first = readFileSync(await filmed('ball', 'mp4', 240))
    expect(readFileSync(await filmed('ball', 'mp4', 240)).equals(first)).toBe(true)
  })
  it('that is cancelled says so and leaves nothing behind', async () => {
    const stop = new AbortController()
    const order = clipOrderSchema.parse({ ...usualClip, hitId: hit.row.hitId, format: 'mp4' })
    const left = () => readdirSync(tmpdir()).filter(name => name.startsWith('whorl-clip-')).length
    const before = left()
    const making = host.service['publish.clip'](order, { signal: stop.signal, progress: () => stop.abort() })
    await expect(making).rejects.toMatchObject({ code: 'cancelled' })
    expect(left()).toBeLessThanOrEqual(before)
  })
})

describe('pictures of a hit', () => {
  it.each(['bearing', 'flight', 'turned-back'])('as PNG have the size that was asked for: %s', async kind => {
    const to = join(folder, `${kind}.png`)
    const words = ['picture', kind, 'topspin-240-a.mp4', '--size', '640x480', '--to', to]
    expect((await said([...words, '--workspace', workspaceFile])).code).toBe(0)
    // PNG (ISO/IEC 15948), 11.2.2: width and height stand in the first chunk.
    const png = readFileSync(to)
    expect([png.toString('latin1', 1, 4), png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([
      'PNG',
      640,
      480,
    ])
  })
  it('are the same bytes twice', async () => {
    const twice = ['a.svg', 'b.svg'].map(name => join(folder, name))
    for (const to of twice)
      await said(['picture', 'flight', 'topspin-240-a.mp4', '--to', to, '--workspace', workspaceFile])
    expect(readFileSync(twice[0]!).equals(readFileSync(twice[1]!))).toBe(true)
  })
  it.each([
    ['a hit that is not there', ['picture', 'bearing', 'none.mp4'], 'hit-unknown'],
    ['no hit', ['picture', 'flight'], 'picture-of-what'],
    ['no paddles where two are compared', ['picture', 'difference'], 'picture-of-what'],
    ['no session', ['picture', 'hits'], 'picture-of-what'],
    ['no size', ['picture', 'dots', '--size', '10x10'], 'usage'],
    ['a look that nobody kept', ['picture', 'dots', '--look', 'Channel'], 'look-unknown'],
  ])('of %s say what is missing', async (_, words, code) => {
    const answer = await said([
      ...words,
      '--to',
      join(folder, 'x.png'),
      '--workspace',
      workspaceFile,
      '--json',
    ])
    expect(problemSchema.parse(JSON.parse(answer.out)).code).toBe(code)
  })
})

type Colour = readonly [number, number, number]
const isMarkColour = ([r, g, b]: Colour) => r > 150 && b > 120 && g < 120

/** The middles of the pixels of a colour within `reach` px of a place; pixels count from the picture's corner. */
async function pixelsOf(
  path: string,
  frame: number,
  { xPx, yPx }: { xPx: number; yPx: number },
  reach: number,
  isMeant: (colour: Colour) => boolean,
) {
  const picture = await media.frame(path, frame)
  const rgba = i420ToRgba(picture)
  const pixels: { xPx: number; yPx: number }[] = []
  for (let row = Math.round(yPx - reach); row <= yPx + reach; row++)
    for (let column = Math.round(xPx - reach); column <= xPx + reach; column++) {
      const at = (row * picture.widthPx + column) * 4
      if (isMeant([rgba[at]!, rgba[at + 1]!, rgba[at + 2]!]))
        pixels.push({ xPx: column + 0.5, yPx: row + 0.5 })
    }
  picture.done?.()
  if (pixels.length < 4) throw new Error(`no such colour near ${xPx}, ${yPx} in frame ${frame}`)
  return pixels
}

async function middleOf(...[path, frame, place, reach, isMeant]: Parameters<typeof pixelsOf>) {
  const pixels = await pixelsOf(path, frame, place, reach, isMeant)
  const mean = (of: 'xPx' | 'yPx') => pixels.reduce((sum, pixel) => sum + pixel[of], 0) / pixels.length
  return { xPx: mean('xPx'), yPx: mean('yPx') }
}

/**
 * The middle of the circle through pixels: a ring that compression has eaten a part of keeps its middle (I. Kåsa,
 * IEEE Trans. Instrum. Meas. 25 (1976) 8: x² + y² = 2ax + 2by + c by least squares; from memory).
 */
function ringThrough(pixels: readonly { xPx: number; yPx: number }[]) {
  const [{ xPx: x0, yPx: y0 }] = pixels as [{ xPx: number; yPx: number }]
  const near = pixels.map(({ xPx, yPx }) => [xPx - x0, yPx - y0] as const)
  const fit = linearLeastSquares(
    near.flatMap(([x, y]) => [2 * x, 2 * y, 1]),
    near.map(([x, y]) => x * x + y * y),
    3,
  )!
  return { xPx: x0 + fit.coefficients[0]!, yPx: y0 + fit.coefficients[1]! }
}
