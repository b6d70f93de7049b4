import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { Media } from '../../../electron/media/media.ts'
import { makers } from './builds.ts'
import { Clips, h264, hevc } from './clips.ts'

const source = join(import.meta.dirname, '../../../sample-clips/contact-240.mp4')
const clips = new Clips()
let media: Media
beforeAll(() => {
  media = createMedia()
})
afterAll(async () => {
  await media.close()
  clips.remove()
})

const plainHevc = (...more: string[]) => [
  '-c:v',
  'libx265',
  '-pix_fmt',
  'yuv420p',
  '-x265-params',
  'log-level=error',
  ...more,
]

/** The sample at half size through a filter and a coder, as a clip whose truth is the filter. */
function built(name: string, filter: string, coder = h264('-crf', '20'), ...before: string[]): string {
  const filters = ['scale=480:272', filter].filter(each => each !== '').join(',')
  return clips.make(name, ...before, '-i', source, '-vf', filters, ...coder, ...makers.everyFrame)
}
const findings = async (path: string) => (await media.probe(path)).warnings
const codes = async (path: string) => (await findings(path)).map(warning => warning.code)

const light = (share: number) =>
  `geq=lum='lum(X,Y)*(1+${share}*sin(2*PI*100*N/240))':cb='cb(X,Y)':cr='cr(X,Y)'`

describe('what was built into a clip is found in it', () => {
  test.each([
    ['half of the frames mixed', 'fps=120,minterpolate=fps=240:mi_mode=blend', 'mixed-frames', 'refuse'],
    ['three of four mixed', 'fps=60,minterpolate=fps=240:mi_mode=blend', 'mixed-frames', 'refuse'],
    ['60 fps dressed as 240', 'fps=60,fps=240', 'mostly-repeated', 'refuse'],
    ['a lamp that flickers by 3 % at 100 Hz', light(0.03), 'flicker', 'none'],
    ['a view that shakes', 'crop=440:230:20+14*sin(n/12):20+9*cos(n/9)', 'moving-view', 'widen'],
    ['pixels that are not square', 'setsar=4/3', 'non-square-pixels', 'correct'],
  ])('%s', async (name, filter, code, effect) => {
    const found = await findings(built(`${code}-${name.length}.mp4`, filter))
    expect(found.find(warning => warning.code === code)).toMatchObject({ effect })
  })

  test('mixed frames in HEVC', async () => {
    expect(
      await codes(built('mixed-hevc.mp4', 'fps=120,minterpolate=fps=240:mi_mode=blend', hevc())),
    ).toContain('mixed-frames')
  })

  test('a ramp, with its borders', async () => {
    const slow = "setpts='if(lt(N,15),N/240,if(lt(N,35),15/240+(N-15)/30,15/240+20/30+(N-35)/240))/TB'"
    const path = built('ramp.mp4', slow, [...h264('-crf', '20'), '-video_track_timescale', '48000'])
    const found = await findings(path)
    const ramp = found.find(warning => warning.code === 'ramp')!
    expect(ramp.message).toContain('frames 0–15 at 240 fps, frames 15–35 at 30 fps, frames 35–49 at 240 fps')
    expect(found.map(warning => warning.code)).not.toContain('dropped-frames')
  })

  test('interlaced pictures', async () => {
    const woven = 'tinterlace=interleave_top,setfield=tff'
    const path = built('woven.mp4', woven, [...h264('-crf', '20'), '-flags', '+ilme+ildct'])
    expect(await codes(path)).toContain('interlaced')
  })

  test('compression that wipes out what is fine', async () => {
    expect(await codes(built('crushed.mp4', '', h264('-crf', '48')))).toContain('strong-compression')
  })

  test('frames that an edit list hides', async () => {
    const path = clips.path('edited.mp4')
    execFileSync(makers.ffmpeg.path, ['-v', 'error', '-ss', '0.05', '-i', source, '-c', 'copy', path])
    const found = await findings(path)
    expect(found.find(warning => warning.code === 'edit-list')!.message).toContain('12 frames')
  })

  test('times rounded to 1/600 s', async () => {
    expect(await codes(join(source, '../phone-240.mov'))).toEqual(['rounded-timestamps'])
  })
})

describe('no false alarm on clips that are as filmed', () => {
  test.each(['h264', 'hevc'] as const)('%s, three qualities and three containers', async coder => {
    for (const [crf, container] of [
      ['18', 'mp4'],
      ['23', 'mkv'],
      ['28', 'mov'],
    ]) {
      const words = coder === 'h264' ? h264('-crf', crf!) : plainHevc('-crf', crf!)
      // Matroska counts in milliseconds: its times are rounded, and that is so.
      const expected = container === 'mkv' ? ['rounded-timestamps'] : []
      expect(await codes(built(`clean-${coder}.${container}`, '', words))).toEqual(expected)
    }
  })

  test.each(['smear-240', 'fast-240-a', 'tilted-240', 'rolling-240', 'backspin-120'])('%s', async name => {
    expect(await codes(join(source, `../${name}.mp4`))).toEqual([])
  })
})
