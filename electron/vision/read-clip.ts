import type { Progress } from '../../core/contract/calls.ts'
import type { Clip } from '../../core/contract/clip.ts'
import type { Outline } from '../../core/contract/marks.ts'
import type { Reading } from '../../core/contract/reading.ts'
import { type ContactBetween, contactBetween } from '../../core/flight/contact-between.ts'
import { noFlight, type Why, whyNoFlight } from '../../core/flight/no-flight.ts'
import type { Known } from '../../core/flight/read-flight.ts'
import type { FoundFlight } from '../../core/flight/read-track.ts'
import { evenClock } from '../../core/timing/even-clock.ts'
import { frameTimes } from '../../core/timing/frame-times.ts'
import { movedInBoth, nothingMoved } from '../../core/vision/find/moved.ts'
import type { FlightOutline } from '../../core/vision/find/outline-flight.ts'
import type { Pointed } from '../../core/vision/propose.ts'
import type { Media } from '../media/media.ts'
import type { InLane } from '../service/lanes.ts'
import { cropsOf, type View, viewOf, viewsTogether } from './crops.ts'
import { findInClip } from './find-in-clip.ts'
import type { Pool } from './pool.ts'

export type ReadClipOptions = {
  /** A probe made before; left out, the clip is probed. */
  clip?: Clip
  captureFps?: number | null
  /** Of the capture rate; left out, the file's own where the rate is the file's. */
  captureRelativeUncertainty?: number
  exposureSeconds?: number
  readoutSeconds?: number
  readoutUncertaintySeconds?: number
  focalLengthPx?: number
  ballDiameterMetres?: number
  plausible?: Known['plausible']
  /** Both ends included; left out, the whole clip. */
  window?: { fromFrame: number; toFrame: number }
  /** Outlines that a person has put right. */
  corrected?: readonly { frame: number; outline: Outline }[]
}
export type ReadClip = {
  clip: Clip
  /** One a flight, in order of time; a single one without a figure where no flight was found. */
  readings: Reading[]
  /** In the order of `readings`; empty where no flight was found. */
  outlines: FlightOutline[][]
  contacts: ContactBetween[]
  /** In the order of `readings`: what `proposeMark` needs beside them (core/vision/propose.ts). */
  features: { focalLengthPx: number | null; feature: Pointed | null }[]
}
/** `inLane` keeps the flights whose full-size pictures are in memory to the memory of the pool's size, over all clips. */
export type Eyes = { media: Media; pool: Pool; inLane: InLane }
export type Job = { signal?: AbortSignal; progress?: (progress: Progress) => void }

/** A pickleball, 2.87–2.97 in across (USA Pickleball rulebook, 2.D): the middle. */
const usualDiameterMetres = 0.0742
/** A ball's turning is not seen in fewer: read-surface.ts says the same of a flight. */
const fewestFrames = 4

/**
 * Finds the flights in a clip and reads the spin of each, on all cores. Memory stays bounded whatever the clip's
 * length: small pictures in stretches for finding, full-size ones around one flight at a time for each worker.
 */
export async function readClip(
  { media, pool, inLane }: Eyes,
  path: string,
  options: ReadClipOptions,
  job: Job = {},
): Promise<ReadClip> {
  const clip = options.clip ?? (await media.probe(path, { ...job, captureFps: options.captureFps ?? null }))
  const fps = options.captureFps ?? clip.capture.fps
  const none = (why: Why): ReadClip => ({
    clip,
    readings: [noFlight(clip.frames, why)],
    outlines: [],
    contacts: [],
    features: [],
  })
  if (fps === null)
    return none({
      reason: 'Nobody says at how many frames a second the camera filmed.',
      tip: 'Say the capture rate: it scales every figure.',
    })
  if (clip.frames < fewestFrames)
    return none({
      reason: `The clip has ${clip.frames === 1 ? 'one frame' : `${clip.frames} frames`}: too few to see a ball turn.`,
      tip: 'Take the clip as the camera filmed it, with the whole flight in it.',
    })
  const untrue = madeUp(clip, options)
  if (untrue) return none({ reason: untrue.message, tip: untrue.todo ?? '' })
  const timestampsSeconds = await media.timestamps(path, { signal: job.signal })
  const raw = frameTimes({ timestampsSeconds, playbackFps: clip.playbackFps, captureFps: fps, trusted: true })
  const even = evenClock(
    raw,
    raw.map((_, i) => i),
    fps,
    clip.timestamps.tickSeconds ?? 1e-3 / fps,
  )
  const times = even ?? raw
  const known = knownOf(clip, fps, options)
  const window = options.window ?? { fromFrame: 0, toFrame: clip.frames - 1 }
  const corrected = (options.corrected ?? []).map(({ frame, outline }): [number, Outline] => [frame, outline])
  const flightsRead = { done: 0, total: 0 }
  let isAllFound = false
  const report = () => job.progress?.({ what: 'Reading flights', ...flightsRead })
  const read = async (views: readonly View[]): Promise<(FoundFlight | null)[]> => {
    const crops = await cropsOf(media, path, clip, views, times, job.signal)
    return Promise.all(
      views.map(async ({ track }, i) => {
        const flight = await pool.run('read', { track, crops: crops[i]!, known, corrected }, job.signal)
        flightsRead.done++
        // What is still to be found is told until then.
        if (isAllFound) report()
        return flight
      }),
    )
  }
  let moved = nothingMoved
  const reading: Promise<(FoundFlight | null)[]>[] = []
  try {
    for await (const part of findInClip({ media, pool }, path, clip, window, job)) {
      moved = movedInBoth(moved, part.moved)
      flightsRead.total += part.tracks.length
      const views = part.tracks.map(track => viewOf(track, clip, window))
      for (const { views: together, shares } of viewsTogether(views, pool.size))
        reading.push(inLane(() => read(together), shares))
    }
    isAllFound = true
    if (flightsRead.done < flightsRead.total) report()
  } finally {
    // Nothing of this clip is left running, and no failure unheard.
    await Promise.allSettled(reading)
  }
  const flights = (await Promise.all(reading)).flat()
  const found = flights.flatMap(flight => (flight ? [flight] : [])).filter(alone)
  if (found.length === 0) return none(whyNoFlight(moved, flightsRead.total))
  const contacts = contactsOf(found)
  return {
    clip,
    readings: found.map(({ reading }) => reading),
    outlines: found.map(({ outlines }) => outlines),
    contacts,
    features: found.map(({ focalLengthPx, feature }) => ({ focalLengthPx, feature })),
  }
}

/**
 * What makes the times of a clip's pictures no times of a camera: a figure from them would be made up. A capture rate
 * that is not known is said by itself, and a person who gives a window has looked at where the speed changes.
 */
const madeUp = ({ warnings }: Clip, { window }: ReadClipOptions) =>
  warnings.find(
    ({ code, effect }) =>
      effect === 'refuse' && code !== 'capture-rate-unknown' && !(code === 'ramp' && window !== undefined),
  )

/** Between any two flights: what else moves, a paddle's edge, may be taken for a flight between them. */
const contactsOf = (flights: readonly FoundFlight[]) =>
  flights.flatMap(before =>
    flights.flatMap(after => {
      const contact = before === after ? null : contactBetween(before.outlines, after.outlines)
      return contact ? [contact] : []
    }),
  )

/** Parts of one and the same flight that were tracked twice: the longer one stays. */
function alone(flight: FoundFlight, i: number, all: FoundFlight[]): boolean {
  return !all.some((other, k) => {
    if (k === i) return false
    const byFrame = new Map(other.outlines.map(({ frame, outline }) => [frame, outline]))
    const shared = flight.outlines.filter(({ frame, outline }) => {
      const there = byFrame.get(frame)
      return there && Math.hypot(there.xPx - outline.xPx, there.yPx - outline.yPx) < outline.radiusPx
    })
    const longer = other.outlines.length - flight.outlines.length || i - k
    return shared.length > flight.outlines.length / 2 && longer > 0
  })
}

function knownOf(clip: Clip, fps: number, options: ReadClipOptions): Known {
  const { exposureSeconds, readoutSeconds, readoutUncertaintySeconds, focalLengthPx, plausible } = options
  return {
    capture: {
      fps,
      relativeUncertainty:
        options.captureRelativeUncertainty ??
        (clip.capture.fps === fps ? (clip.capture.relativeUncertainty ?? undefined) : undefined),
      exposureSeconds,
      readoutSeconds,
      readoutUncertaintySeconds,
      focalLengthPx,
    },
    picture: { widthPx: clip.widthPx, heightPx: clip.heightPx },
    ball: { diameterMetres: options.ballDiameterMetres ?? usualDiameterMetres },
    plausible,
  }
}
