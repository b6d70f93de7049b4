import { execFileSync } from 'node:child_process'
import { afterAll, afterEach, describe, expect, test, vi } from 'vitest'
import { createMedia } from '../../../electron/media/create-media.ts'
import { openArguments } from '../../../electron/media/guard.ts'
import { builds, toolsOf } from './builds.ts'
import { Clips, h264 } from './clips.ts'

const clips = new Clips()
afterAll(() => clips.remove())
afterEach(() => vi.useRealTimers())

const file = (path: string) => ({ path, bytes: 1, demuxer: 'mov', key: '' })

describe('what a clip may ask of the decoder', () => {
  test.each(builds)('is limited in a way that the %s programs understand', async programs => {
    const { ffmpeg, ffprobe } = await toolsOf(programs)
    const path = clips.film('good.mp4', h264())
    const words = openArguments(file(path))
    for (const option of [
      '-protocol_whitelist',
      '-probesize',
      '-analyzeduration',
      '-max_pixels',
      '-max_alloc',
    ])
      expect(words).toContain(option)
    execFileSync(ffmpeg.path, ['-v', 'error', ...words, '-i', path, '-f', 'null', '-'], { stdio: 'pipe' })
    execFileSync(ffprobe.path, ['-v', 'error', ...words, path], { stdio: 'pipe' })
    const few = words.map((word, i) => (words[i - 1] === '-max_pixels' ? '100' : word))
    expect(() =>
      execFileSync(ffmpeg.path, ['-v', 'error', ...few, '-i', path, '-f', 'null', '-'], { stdio: 'pipe' }),
    ).toThrow()
  })

  // A raw codec takes its size from the container: 160 × 96 becomes another in the header alone.
  test.each([10_000, 60_000])(
    'a picture of %i by as many pixels is refused before memory is set aside for it',
    async size => {
      const code = 'clip-not-video'
      const path = clips.film('raw.avi', ['-c:v', 'rawvideo', '-pix_fmt', 'yuv420p', '-frames:v', '2'])
      const huge = clips.copy(path, `${size}.avi`, bytes => {
        const format = bytes.indexOf('strf', 0, 'latin1') + 8
        bytes.writeUInt32LE(size, format + 4)
        bytes.writeUInt32LE(size, format + 8)
        return bytes
      })
      const media = createMedia({ programs: 'packages' })
      const before = process.memoryUsage().rss
      await expect(media.probe(huge)).rejects.toMatchObject({ code })
      await expect(media.frame(huge, 0)).rejects.toMatchObject({ code })
      expect(process.memoryUsage().rss - before).toBeLessThan(500e6)
      await media.close()
    },
  )
})

/** The ffmpegs and ffprobes that have the clip open. */
const programsOn = (path: string) =>
  execFileSync('ps', ['-eo', 'pid=,args='])
    .toString()
    .split('\n')
    .filter(line => /ff(mpeg|probe)/.test(line) && line.includes(path))
    .map(line => Number.parseInt(line, 10))

describe('a decoder that hangs', () => {
  test('is stopped when it has given no picture for a minute, and says so', async () => {
    const film = clips.film('short.mp4', h264())
    const words = ['-stream_loop', '400', '-i', film, '-c', 'copy', '-fflags', '+genpts']
    const path = clips.make(`hangs-${process.pid}.mp4`, ...words)
    const media = createMedia({ programs: 'packages' })
    await media.timestamps(path)
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
    const outcome = media.prepare(path, { fromFrame: 5000, toFrame: 24_000 }).then(
      () => 'ended',
      error => error.message,
    )
    await vi.waitUntil(() => programsOn(path).length > 0, { timeout: 30_000, interval: 1 })
    for (const pid of programsOn(path)) process.kill(pid, 'SIGSTOP')
    // What was on its way arrives first: a picture that comes sets the clock back.
    const ended = outcome.then(() => true)
    while (!(await Promise.race([ended, new Promise(resolve => setImmediate(resolve, false))])))
      vi.advanceTimersByTime(5_000)
    expect(await outcome).toContain('it gave no picture for 60 s')
    expect(programsOn(path)).toEqual([])
    await media.close()
  })
})
