import { join } from 'node:path'
import { build } from '../../../electron/build.mjs'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { Media } from '../../../electron/media/media.ts'
import { places } from '../../../electron/service/places.ts'
import type { ReadClip } from '../../../electron/vision/read-clip.ts'
import { createVision, type Vision } from '../../../electron/vision/vision.ts'
import type { Truth } from '../../../sample-clips/renderer/truth-form.ts'
import { phoneClip, phoneHit } from './phone-clips.ts'
import { ffprobe, run, toNothing } from './plain-ffmpeg.ts'
import { type Line, type Sides, sideBySide } from './side-by-side.ts'

const windowFrames = 60

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

async function withEyes(work: (media: Media, vision: Vision) => Promise<Sides>): Promise<Sides> {
  // The workers are what was built last.
  await build()
  const media = createMedia()
  const vision = createVision(media)
  try {
    return await work(media, vision)
  } finally {
    await vision.close()
    await media.close()
  }
}

const surface: Line = {
  name: 'surface',
  what: 'A sample clip read from the ball’s surface',
  beside: nothing,
  measure: () =>
    withEyes(async (media, vision) => {
      const path = join(places.samples, 'fast-240-a.mp4')
      const clip = await media.probe(path)
      return sideBySide(
        () => vision.readClip(path, { clip, captureFps: null }),
        () => toNothing(path, [], 0, clip.frames),
        { clock: 'wall', repeats: 5 },
      )
    }),
}

/**
 * From the path to the readings: decoded and searched, each flight decoded again at full size and read. Not in it is
 * what the program did when the clip was brought in: its look at every frame and its list of times.
 */
const wholeClip: Line = {
  name: 'wholeClip',
  what: '10 s of 1080p decoded, searched, its two flights read',
  beside: nothing,
  measure: () =>
    withEyes(async (media, vision) => {
      const { path, framesBefore, truth } = await phoneHit()
      const clip = await media.probe(path)
      return sideBySide(
        async () => checkRead(await vision.readClip(path, { clip }), framesBefore, truth),
        () => toNothing(path, [], 0, clip.frames),
        { clock: 'wall', repeats: 3 },
      )
    }),
}

/** Quick and wrong is not quick. */
function checkRead({ readings, contacts }: ReadClip, framesBefore: number, truth: Truth): void {
  const expected = truth.flights.map(({ rpm }) => rpm)
  const contactFrame = framesBefore + truth.contact!.lastFrameBefore
  const isRight =
    readings.length === expected.length &&
    readings.every(({ rpm }, i) => rpm !== null && Math.abs(rpm / expected[i]! - 1) < 0.01) &&
    contacts.some(({ lastFrameBefore }) => Math.abs(lastFrameBefore - contactFrame) <= 1)
  if (isRight) return
  const found = `${readings.map(({ rpm }) => rpm)} rpm, contact ${contacts.map(c => c.lastFrameBefore)}`
  throw new Error(`Expected ${expected} rpm within 1 %, contact ${contactFrame}; read ${found}`)
}

export const clips: Line[] = [decode, window, firstPicture, step, surface, wholeClip]
