import { afterAll, describe, expect, test } from 'vitest'
import { createMedia } from '../../../electron/media/create-media.ts'
import { builds } from './builds.ts'
import { Clips, decodeWhole, h264, hashOf, hevc, turned } from './clips.ts'

const clips = new Clips()
afterAll(() => clips.remove())

const tick600 = ['-video_track_timescale', '600']
const uneven = ['settb=1/24000', 'setpts=(N+0.4*sin(N))/240/TB']
const fineTimes = ['-enc_time_base', '1:24000']

/** Containers, coders and times in which frame n could go astray. */
const films: Record<string, () => string> = {
  'H.264 with B-frames in MP4': () => clips.film('h264.mp4', h264()),
  'H.264 in MOV at 1/600 s': () => clips.film('h264.mov', h264(...tick600)),
  'H.264 in Matroska, times in whole milliseconds': () => clips.film('h264.mkv', h264()),
  'H.264 at a variable rate': () => clips.film('uneven.mp4', h264(...fineTimes), uneven),
  'H.264 cut by an edit list between key pictures': () =>
    clips.make('edited.mp4', '-ss', '0.1', '-i', clips.film('h264.mp4', h264()), '-c', 'copy'),
  'H.264 turned by 90°': () => clips.copy(clips.film('h264.mp4', h264()), 'turned-90.mp4', turned(90)),
  'H.264 turned by 180°': () => clips.copy(clips.film('h264.mp4', h264()), 'turned-180.mp4', turned(180)),
  'HEVC turned by 270°': () => clips.copy(clips.film('hevc.mp4', hevc()), 'turned-270.mp4', turned(270)),
  'HEVC with open groups in MP4': () => clips.film('hevc.mp4', hevc()),
  'HEVC in MOV at 1/600 s': () => clips.film('hevc.mov', hevc('-tag:v', 'hvc1', ...tick600)),
  'HEVC in Matroska at a variable rate': () => clips.film('hevc.mkv', hevc(), uneven),
  'HEVC with 10 bits': () => clips.film('ten-bit.mp4', hevc('-pix_fmt', 'yuv420p10le')),
  'HEVC cut at a key picture whose leading pictures are lost': () =>
    clips.make('cut.mkv', '-ss', '0.09', '-i', clips.film('hevc.mkv', hevc(), uneven), '-c', 'copy'),
  'H.264 in an MPEG transport stream, times not from 0': () => clips.film('h264.ts', h264()),
  'H.264 with sound that starts first': () =>
    clips.make(
      ...(['sound.mp4', '-f', 'lavfi', '-i', 'sine=d=0.5', '-itsoffset', '0.2', '-i'] as const),
      ...[clips.film('h264.mp4', h264()), '-map', '0', '-map', '1', '-c:v', 'copy', '-c:a', 'aac'],
    ),
  'MPEG-4 with B-frames in AVI, which has no times for them': () =>
    clips.film('mpeg4.avi', ['-c:v', 'mpeg4', '-bf', '2', '-g', '20', '-q:v', '4']),
  'Motion JPEG in AVI with the full range of brightness': () =>
    clips.film('mjpeg.avi', ['-c:v', 'mjpeg', '-q:v', '3', '-pix_fmt', 'yuvj420p']),
}

describe.each(builds)('with the programs of %s', programs => {
  // Memory for four pictures: nearly every frame asked for is decoded anew, from another starting point.
  const narrow = createMedia({ programs, budgetBytes: 4 * ((160 * 96 * 3) / 2) })
  const roomy = createMedia({ programs })
  afterAll(() => Promise.all([narrow.close(), roomy.close()]))
  // The system's ffmpeg is slow to start: it decodes the window alone, begun at a key picture inside the clip.
  const asked = programs === 'system' ? [] : [59, 21, 1]

  test.each(Object.entries(films))('every frame is the one of a full decode: %s', async (_, film) => {
    const path = film()
    const whole = decodeWhole(path)
    const last = whole.hashes.length - 1
    expect(new Set(whole.hashes).size).toBe(last + 1)
    const times = await narrow.timestamps(path)
    expect(times.length).toBe(last + 1)
    // ffprobe gives no time for what it has left at the end of an AVI.
    for (const [n, time] of whole.timesSeconds.entries())
      if (!Number.isNaN(time)) expect(times[n]).toBeCloseTo(time, 9)

    for (const n of asked.filter(n => n <= last)) {
      const { data, widthPx, heightPx } = await narrow.frame(path, n)
      expect([widthPx, heightPx]).toEqual([whole.widthPx, whole.heightPx])
      expect([n, hashOf(data)]).toEqual([n, whole.hashes[n]])
    }
    const window = { fromFrame: 23, toFrame: Math.min(last, 47) }
    await roomy.prepare(path, window)
    for (let n = window.fromFrame; n <= window.toFrame; n++)
      expect([n, hashOf((await roomy.frame(path, n)).data)]).toEqual([n, whole.hashes[n]])
  })
})
