import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, renameSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Children } from '../../../electron/media/children.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { Media } from '../../../electron/media/media.ts'
import { findTools } from '../../../electron/media/programs.ts'
import { places } from '../../../electron/service/places.ts'
import { createVision } from '../../../electron/vision/vision.ts'
import { type Line, type Sides, sideBySide } from './side-by-side.ts'

const windowFrames = 60
const { ffmpeg, ffprobe, everyFrame } = await findTools(new Children(), 'any')
const quiet = ['-v', 'error', '-nostdin']

/**
 * A clip as a phone makes it: 10 s of 1080p at 240 fps, H.264, 50 Mbit/s, noise, a key picture a second. Made
 * once and kept in the system's folder for temporary files.
 */
function phoneClip(): string {
  const folder = join(tmpdir(), 'whorl-bench')
  const path = join(folder, '1080p240-10s.mp4')
  if (existsSync(path)) return path
  mkdirSync(folder, { recursive: true })
  const source = ['-f', 'lavfi', '-i', 'testsrc2=s=1920x1080:r=240:d=10,noise=alls=10:allf=t']
  const coder = ['-c:v', 'libx264', '-preset', 'ultrafast', '-bf', '2', '-g', '240', '-pix_fmt', 'yuv420p']
  const rate = ['-b:v', '50M', '-maxrate', '60M', '-bufsize', '50M']
  execFileSync(ffmpeg.path, [...quiet, '-y', ...source, ...coder, ...rate, `${path}.part.mp4`])
  renameSync(`${path}.part.mp4`, path)
  return path
}

const run = (program: string, words: readonly string[]) =>
  once(spawn(program, words, { stdio: 'ignore' }), 'close')

/** Decodes so many frames from a frame on to nothing, by the same ffmpeg. */
function toNothing(path: string, times: readonly number[], fromFrame: number, frames: number) {
  const seek = fromFrame === 0 ? [] : ['-ss', ((times[fromFrame - 1]! + times[fromFrame]!) / 2).toFixed(6)]
  const words = [...quiet, ...seek, '-i', path, '-frames:v', String(frames)]
  return run(ffmpeg.path, [...words, ...everyFrame, '-f', 'null', '-'])
}

async function withClip(
  work: (media: Media, path: string, times: readonly number[]) => Promise<Sides>,
): Promise<Sides> {
  const path = phoneClip()
  const media = createMedia()
  try {
    return await work(media, path, await media.timestamps(path))
  } finally {
    await media.close()
  }
}

const nothing = 'ffmpeg to nothing'

const decode: Line = {
  name: 'decode',
  what: '480 frames of 1080p decoded and looked at small',
  beside: nothing,
  measure: () =>
    withClip((media, path, times) =>
      sideBySide(
        async () => {
          for await (const _ of media.lumaWindow(path, { fromFrame: 0, toFrame: 479 }, { maxWidthPx: 480 }));
        },
        () => toNothing(path, times, 0, 480),
        { clock: 'wall', repeats: 5 },
      ),
    ),
}

/** The first windows are not counted: the host takes its memory from the system then. */
const window: Line = {
  name: 'window',
  what: 'A window of 60 frames sought and decoded into memory',
  beside: nothing,
  measure: () =>
    withClip(async (media, path, times) => {
      const prepare = (fromFrame: number) =>
        media.prepare(path, { fromFrame, toFrame: fromFrame + windowFrames - 1 })
      for (const fromFrame of [40, 110]) await prepare(fromFrame)
      const from = Array.from({ length: 9 }, (_, i) => 340 + 220 * i)
      const [ours, plain] = [from.values(), from.values()]
      return sideBySide(
        () => prepare(ours.next().value!),
        () => toNothing(path, times, plain.next().value!, windowFrames),
        { clock: 'wall', repeats: 9 },
      )
    }),
}

const firstPicture: Line = {
  name: 'firstPicture',
  what: 'First picture of a clip never seen: times listed, frame 0',
  beside: 'ffprobe’s list, then ffmpeg one frame to nothing',
  measure: () =>
    withClip((_, path, times) =>
      sideBySide(
        async () => {
          const fresh = createMedia()
          await fresh.timestamps(path)
          await fresh.frame(path, 0)
          await fresh.close()
        },
        async () => {
          const list = ['-v', 'error', '-select_streams', 'v:0', '-show_entries', 'packet=pts,flags']
          await run(ffprobe.path, [...list, '-of', 'json', path])
          await toNothing(path, times, 0, 1)
        },
        { clock: 'wall', repeats: 7 },
      ),
    ),
}

const step: Line = {
  name: 'step',
  what: 'A step to the next picture in a prepared window',
  beside: 'ffmpeg one frame to nothing',
  measure: () =>
    withClip(async (media, path, times) => {
      const fromFrame = 1000
      await media.prepare(path, { fromFrame, toFrame: fromFrame + windowFrames - 1 })
      let frame = fromFrame
      return sideBySide(
        async () => {
          const { done } = await media.frame(path, fromFrame + (frame++ % windowFrames))
          done?.()
        },
        () => toNothing(path, times, fromFrame, 1),
        { clock: 'wall', repeats: 15 },
      )
    }),
}

const surface: Line = {
  name: 'surface',
  what: 'A sample clip read from the ball’s surface',
  beside: nothing,
  measure: async () => {
    const path = join(places.samples, 'fast-240-a.mp4')
    const media = createMedia()
    const vision = createVision(media)
    try {
      const clip = await media.probe(path)
      return await sideBySide(
        () => vision.readClip(path, { clip, captureFps: null }),
        () => toNothing(path, [], 0, clip.frames),
        { clock: 'wall', repeats: 5 },
      )
    } finally {
      await vision.close()
      await media.close()
    }
  },
}

export const clips: Line[] = [decode, window, firstPicture, step, surface]
