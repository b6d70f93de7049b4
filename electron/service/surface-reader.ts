import type { PlacedOutline, SingleEdit } from '../../core/contract/bench.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { BenchHit, ClipRecord } from '../../core/contract/workspace.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import { settledReading } from '../../core/spin/settled-reading.ts'
import type { FoundHit, SurfaceOfHit, Workspace } from '../store/workspace.ts'
import type { Job, ReadClip } from '../vision/read-clip.ts'
import type { Vision } from '../vision/vision.ts'
import type { Bus } from './bus.ts'
import { createLanes } from './lanes.ts'
import { type Asked, askedOf, readOnce, wordsOf } from './read-once.ts'

/** Reads clips and hits from the ball's surface and stores what came out. */
export type SurfaceReader = {
  /** Finds the hits of a clip; those that were there stay. `said` tells in words what came out. */
  readClip(clipId: string, job: Job): Promise<{ hitIds: string[]; said: string }>
  /** The same of a clip that another machine read, as if it had been read here. */
  takeIn(clipId: string, found: ReadClip): { hitIds: string[]; said: string }
  /** Reads one hit within its window, as one step of work that can be undone. */
  readHit(hitId: string, job: Job): Promise<BenchHit>
  /** Reads a hit again in the background, after something under its reading changed. */
  later(hitId: string): void
  close(): Promise<void>
}

type Flight = { outlines: PlacedOutline[]; surface: Omit<SurfaceOfHit, 'asked'> }
type Needs = { workspace: Workspace; vision: Vision; bus: Bus }

/** A person who nudges an outline does so several times: the reading waits for the last of them. */
const pauseMilliseconds = 300
const pause = () => new Promise(resolve => setTimeout(resolve, pauseMilliseconds))
/** A changed camera has a whole session read again: two hits at a time, as in the queue. */
const againAtOnce = 2

export function createSurfaceReader({ workspace, vision, bus }: Needs): SurfaceReader {
  const closing = new AbortController()
  const inLane = createLanes(againAtOnce)
  const again = new Map<string, { words: string; stop: AbortController; done: Promise<void> }>()

  const told = (job: Job): Job => ({
    ...job,
    signal: AbortSignal.any([closing.signal, ...(job.signal ? [job.signal] : [])]),
  })
  const read = (clip: ClipRecord, asked: Asked, job: Job) =>
    readOnce(vision, workspace, clip.path, asked, told(job))
  function askedOfHit(hitId: string): { clip: ClipRecord; asked: Asked } {
    const { row, marks } = workspace.hit(hitId)
    const clip = workspace.clip(row.clipId)
    return { clip, asked: askedOf(probeOf(clip), workspace.session(row.sessionId), marks) }
  }

  async function readClip(clipId: string, job: Job) {
    const clip = workspace.clip(clipId)
    const session = workspace.session(clip.sessionId)
    return enter(clip, await read(clip, askedOf(probeOf(clip), session), job))
  }

  /** Makes hits of what was found in a clip. */
  function enter(clip: ClipRecord, found: ReadClip) {
    const session = workspace.session(clip.sessionId)
    const hits = flightsOf(found).map((flight): FoundHit => {
      // The outlines may begin before it and end after it, where the picture's edge cuts the ball.
      const { window } = flight.surface.reading
      const asked = wordsOf({ ...askedOf(probeOf(clip), session), window })
      return { window, outlines: flight.outlines, surface: { ...flight.surface, asked }, methodVersion }
    })
    const hitIds = workspace.addFoundHits(clip.id, hits)
    bus.say({ kind: 'changed', what: 'hits', id: null })
    return { hitIds, said: saidOf(found, hitIds.length) }
  }

  async function readHit(hitId: string, job: Job): Promise<BenchHit> {
    const { clip, asked } = askedOfHit(hitId)
    const found = await read(clip, asked, job)
    const { marks, row } = workspace.hit(hitId)
    const flight = flightIn(found, marks.window)
    if (!flight) {
      const [what = '', hint = ''] = found.readings[0]?.reasons ?? []
      throw new WhorlError('edit-refused', { what, hint })
    }
    const byHand = new Set(marks.outlines.filter(one => !one.found).map(({ frame }) => frame))
    const edits: SingleEdit[] = [
      ...marks.outlines
        .filter(one => one.found)
        .map(({ frame }): SingleEdit => ({ kind: 'remove-outline', frame })),
      ...flight.outlines
        .filter(({ frame }) => !byHand.has(frame))
        .map((outline): SingleEdit => ({ kind: 'place-outline', outline: { ...outline, found: true } })),
      { kind: 'set-window', window: flight.surface.reading.window },
      // A figure that marks gave is not given up for none.
      ...(flight.surface.reading.rpm === null && row.reading?.rpm != null
        ? []
        : [{ kind: 'read-from' as const, source: 'surface' as const }]),
      // Another figure was accepted, not this one.
      ...(marks.verdict.state === 'accepted'
        ? [{ kind: 'decide' as const, verdict: { state: 'open' as const, reason: '' } }]
        : []),
    ]
    workspace.saveEdit(hitId, { kind: 'together', edits })
    return keep(hitId, flight)
  }

  /** Stores what was read as made from the hit as it stands now. */
  function keep(hitId: string, { surface, outlines }: Flight): BenchHit {
    workspace.saveSurface(hitId, { ...surface, asked: wordsOf(askedOfHit(hitId).asked) }, outlines)
    const { marks } = workspace.hit(hitId)
    const hit =
      marks.readFrom === 'surface'
        ? workspace.saveReading(hitId, settledReading(surface.reading, marks.settled), methodVersion)
        : workspace.hit(hitId)
    bus.say({ kind: 'changed', what: 'hits', id: hitId })
    return hit
  }

  async function readAgain(hitId: string, words: string, signal: AbortSignal): Promise<void> {
    if (signal.aborted || closing.signal.aborted) return
    const { clip, asked } = askedOfHit(hitId)
    const found = await read(clip, asked, { signal })
    if (wordsOf(askedOfHit(hitId).asked) !== words) return
    const none = { reading: found.readings[0]!, focalLengthPx: null, feature: null }
    keep(hitId, flightIn(found, asked.window!) ?? { outlines: [], surface: none })
  }

  function takeIn(clipId: string, { clip: _, ...flights }: ReadClip) {
    const record = workspace.clip(clipId)
    const clip = probeOf(record)
    workspace.keepFlights(clip.sha256, wordsOf(askedOf(clip, workspace.session(record.sessionId))), flights)
    return enter(record, { clip, ...flights })
  }

  return {
    readClip,
    takeIn,
    readHit,
    later(hitId) {
      if (closing.signal.aborted || workspace.clip(workspace.hit(hitId).row.clipId).probe === null) return
      const words = wordsOf(askedOfHit(hitId).asked)
      const running = again.get(hitId)
      // What could not be read once is not tried again until something about it changes.
      if (running?.words === words) return
      running?.stop.abort()
      const stop = new AbortController()
      const done = pause()
        .then(() => inLane(() => readAgain(hitId, words, stop.signal)))
        .catch(() => {})
      again.set(hitId, { words, stop, done })
    },
    async close() {
      closing.abort()
      await Promise.all([...again.values()].map(({ done }) => done))
    },
  }
}

function probeOf({ probe, problem, path }: ClipRecord) {
  if (probe) return probe
  throw new WhorlError('file-unreadable', { path, what: problem?.message ?? 'it is still being looked at' })
}

/** The flights that a clip shows, each with its circles. */
const flightsOf = ({ readings, outlines, features }: ReadClip): Flight[] =>
  outlines.flatMap((seen, i) => {
    const reading = readings[i]
    if (!reading || seen.length === 0) return []
    const circles = seen.map(({ frame, outline }) => ({ frame, ...outline }))
    const { focalLengthPx = null, feature = null } = features[i] ?? {}
    return [{ outlines: circles, surface: { reading, focalLengthPx, feature } }]
  })

/** The flight that shares most frames with a window. */
function flightIn(found: ReadClip, { fromFrame, toFrame }: { fromFrame: number; toFrame: number }) {
  const shared = ({ outlines }: Flight) =>
    outlines.filter(({ frame }) => frame >= fromFrame && frame <= toFrame).length
  return flightsOf(found).toSorted((a, b) => shared(b) - shared(a))[0]
}

function saidOf({ readings, outlines }: ReadClip, added: number): string {
  if (outlines.length === 0) return readings[0]?.reasons.join(' ') ?? ''
  const [flights, read] = [outlines.length, readings.filter(({ rpm }) => rpm !== null).length]
  const words = flights === 1 ? 'One flight' : `${flights} flights`
  const figures = read === flights ? 'read' : flights === 1 ? 'but not read' : `${read} of ${flights} read`
  const found = `${words} found, ${figures}${added < flights ? `; ${added} new` : ''}.`
  const unread = readings.find(({ rpm }) => rpm === null)
  return [found, ...(unread?.reasons ?? [])].join(' ')
}
