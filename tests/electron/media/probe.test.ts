import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { afterAll, describe, expect, test } from 'vitest'
import type { Progress } from '../../../core/contract/calls.ts'
import { type Clip, clipSchema } from '../../../core/contract/clip.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import { builds } from './builds.ts'
import { Clips, h264, hevc, turned } from './clips.ts'

const clips = new Clips()
afterAll(() => clips.remove())
/** Matroska counts in milliseconds; that its times are rounded is said of every such clip. */
const codes = (clip: Clip) =>
  clip.warnings.map(warning => warning.code).filter(code => code !== 'rounded-timestamps')

/** Frame numbers that stay, from 60; the rest is dropped and leaves its gap. */
const without = (...frames: number[]) => `select=not(${frames.map(n => `eq(n\\,${n})`).join('+')})`
/** A moving scene whose every picture stands for `times` frames. */
const standing = (times: number) => [`fps=${240 / times}`, 'fps=240']

describe.each(builds)('with the programs of %s', programs => {
  const media = createMedia({ programs })
  afterAll(() => media.close())

  test('says all of whorl.clip/1, counted and hashed', async () => {
    const path = clips.copy(
      clips.film('phone.mov', h264('-video_track_timescale', '600')),
      'up.mov',
      turned(90),
    )
    const heard: Progress[] = []
    const clip = await media.probe(path, { progress: p => heard.push(p) })
    expect(clipSchema.parse(clip)).toEqual(clip)
    expect(clip).toMatchObject({
      path,
      sha256: createHash('sha256').update(readFileSync(path)).digest('hex'),
      bytes: readFileSync(path).length,
      codec: 'h264',
      pixelFormat: 'yuv420p',
      // 160 × 96 as stored, turned by a quarter.
      widthPx: 96,
      heightPx: 160,
      rotationDeg: 90,
      frames: 60,
      playbackFps: 240,
      timestamps: { even: true, gaps: [], repeats: [] },
      capture: { fps: 240, source: 'timestamps' },
      warnings: [{ code: 'rounded-timestamps' }, { code: 'rotated', effect: 'none' }],
    })
    expect(clip.container).toContain('mov')
    expect(clip.timestamps.tickSeconds).toBeCloseTo(1 / 600, 12)
    expect(clip.durationSeconds).toBeCloseTo(0.25, 2)
    expect(heard.at(-1)).toMatchObject({ done: 60, total: 60 })
  })

  test('a hash that is known already is taken over', async () => {
    const clip = await media.probe(clips.film('phone.mov', h264()), { sha256: 'abc' })
    expect(clip.sha256).toBe('abc')
  })

  test('dropped frames keep their gaps, in milliseconds and in ticks', async () => {
    const gaps = [
      { afterFrame: 9, missing: 1 },
      { afterFrame: 29, missing: 3 },
    ]
    for (const name of ['gaps.mkv', 'gaps.mp4']) {
      const clip = await media.probe(clips.film(name, hevc(), [without(10, 31, 32, 33)]))
      expect([clip.frames, clip.timestamps.gaps, clip.timestamps.even]).toEqual([56, gaps, true])
      expect(codes(clip)).toEqual(['dropped-frames'])
    }
  })

  test('pictures that a conversion repeated are found, and its rate is not believed', async () => {
    const clip = await media.probe(clips.film('doubled.mp4', h264(), standing(2)))
    const { repeats } = clip.timestamps
    // Every second frame repeats; those at the very ends have movement on one side only.
    expect(repeats.every(n => n % 2 === repeats[0]! % 2)).toBe(true)
    expect(repeats.length).toBeGreaterThanOrEqual(28)
    expect(clip.capture).toEqual({ fps: null, source: 'unknown', relativeUncertainty: null })
    expect(codes(clip)).toEqual(['capture-rate-unknown', 'mostly-repeated'])
  })

  test('a person says how fast the camera filmed, and the file was slowed down', async () => {
    const path = clips.film('slow.mp4', h264('-r', '30'), ['setpts=N/30/TB'])
    const told = await media.probe(path, { captureFps: 240 })
    expect([told.frames, told.playbackFps]).toEqual([60, 30])
    expect(told.capture).toMatchObject({ fps: 240, source: 'user' })
    expect(told.capture.relativeUncertainty).toBeCloseTo(0.000577, 6)
    expect(told.warnings).toMatchObject([
      { code: 'retimed', message: expect.stringContaining('8 times slower') },
    ])
    const untold = await media.probe(path)
    expect(untold.capture.fps).toBeNull()
    expect(codes(untold)).toEqual(['capture-rate-unknown'])
  })

  test('phones and cameras say in the file how fast they filmed', async () => {
    const slow = clips.film('slow.mp4', h264('-r', '30'), ['setpts=N/30/TB'])
    const phone = [
      '-c',
      'copy',
      '-movflags',
      'use_metadata_tags',
      '-metadata',
      'com.android.capture.fps=240.000000',
    ]
    const inTags = await media.probe(clips.make('phone.mp4', '-i', slow, ...phone))
    expect(inTags.capture).toMatchObject({ fps: 240, source: 'metadata' })
    const xml = Buffer.from('<VideoFrame videoCodec="x" captureFps="119.88p" formatFps="29.97p"/>')
    // A box of a kind that players pass over (ISO 14496-12, 8.1.2), behind the movie.
    const box = Buffer.concat([Buffer.from([0, 0, 0, 8 + xml.length]), Buffer.from('free'), xml])
    const inXml = await media.probe(clips.copy(slow, 'camera.mp4', bytes => Buffer.concat([bytes, box])))
    expect(inXml.capture).toMatchObject({ fps: 119.88, source: 'metadata' })
  })

  test.each(['mp4', 'mkv', 'avi'])('a clip cut off in the middle says so: %s', async kind => {
    const whole = clips.film(`whole.${kind}`, kind === 'mp4' ? h264('-movflags', '+faststart') : h264())
    const clip = await media.probe(half(whole, kind))
    expect([clip.frames > 10, clip.frames < 50]).toEqual([true, true])
    expect(codes(clip)).toEqual(['truncated'])
  })

  test('a transport stream has no end that could be missed: cut off, it is a shorter clip', async () => {
    const clip = await media.probe(half(clips.film('whole.ts', h264()), 'ts'))
    expect([clip.frames > 10, clip.frames < 50]).toEqual([true, true])
    expect(codes(clip)).not.toContain('truncated')
  })

  test('pictures that are damaged in the midst are named, and the others keep their places', async () => {
    const whole = clips.film('jpegs.mp4', ['-c:v', 'mjpeg', '-q:v', '3', '-pix_fmt', 'yuvj420p'])
    const times = await media.timestamps(whole)
    const path = clips.copy(whole, 'damaged.mp4', bytes => bytes.fill(0, ...pictureAt(bytes, 20)))
    const clip = await media.probe(path)
    expect(clip.frames).toBe(59)
    expect(codes(clip)).toContain('damaged-frames')
    expect(await media.timestamps(path)).toEqual(times)
    expect((await media.frame(path, 21)).data).toEqual((await media.frame(whole, 21)).data)
    await expect(media.frame(path, 20)).rejects.toMatchObject({ code: 'ffmpeg-failed' })
  })
})

const half = (path: string, kind: string) =>
  clips.copy(path, `half.${kind}`, bytes => bytes.subarray(0, bytes.length / 2))

/** Where the n-th JPEG of a file begins and ends: each starts with FF D8 FF (ITU-T T.81, B.1.1.3). */
function pictureAt(bytes: Buffer, n: number): [number, number] {
  const start = Buffer.from([0xff, 0xd8, 0xff])
  let at = bytes.indexOf(start)
  for (let i = 0; i < n; i++) at = bytes.indexOf(start, at + 1)
  return [at, bytes.indexOf(start, at + 1)]
}
