import type { HitMarks } from '../contract/bench.ts'
import type { Clip } from '../contract/clip.ts'
import type { MarkedFrame, Marks, Sighting } from '../contract/marks.ts'
import type { SessionDetails } from '../contract/workspace.ts'
import { frameTimes } from '../timing/frame-times.ts'
import { outlineAt } from './outline-at.ts'

export type MarksSource = {
  hit: HitMarks
  clip: Clip
  /** Real times by frame of the clip. */
  frameTimesSeconds: readonly number[]
  session: SessionDetails
  captureFps: number | null
}
export type MarksDocument = { marks: Marks; reason: null } | { marks: null; reason: string }

/**
 * A person's work on a hit as `whorl.marks/1`, the one form that readings are made from, or the reason
 * why there is none. It holds the frames of the window in which something was placed; their outlines are
 * the placed or interpolated ones. What nobody knows is left out, never filled in.
 */
export function marksDocumentOf(source: MarksSource): MarksDocument {
  const { hit, clip, session, captureFps } = source
  if (captureFps === null)
    return { marks: null, reason: 'The capture rate is not known; say at how many fps the camera filmed.' }
  const { camera } = session
  return {
    reason: null,
    marks: {
      schema: 'whorl.marks/1',
      capture: {
        fps: captureFps,
        ...known({
          relativeUncertainty: camera.relativeUncertainty ?? uncertaintyOf(clip, captureFps),
          exposureSeconds: camera.exposureSeconds,
          readoutSeconds: camera.readoutSeconds,
          readoutUncertaintySeconds: camera.readoutUncertaintySeconds,
          focalLengthPx: camera.focalLengthPx,
          tickSeconds: realTick(clip, captureFps),
        }),
      },
      picture: { widthPx: clip.widthPx, heightPx: clip.heightPx },
      ball: { diameterMetres: session.ball.diameterMetres },
      plausible: known({ maxRpm: session.maxRpm, sense: hit.sense }),
      marks: hit.marks.map(({ id, symmetryOrder }) => ({ id, symmetryOrder })),
      frames: framesOf(source),
      click: known({ standardUncertaintyPx: session.clickStandardUncertaintyPx }),
      ...(hit.settled ? { settled: hit.settled } : {}),
    },
  }
}

/** The file's own uncertainty speaks for the rate only where the rate is the file's. */
const uncertaintyOf = (clip: Clip, captureFps: number) =>
  clip.capture.fps === captureFps ? clip.capture.relativeUncertainty : null

/** The step of the timestamps in real time: a slow-motion export stretches it like every other time. */
function realTick({ timestamps, playbackFps }: Clip, captureFps: number): number | null {
  if (timestamps.tickSeconds === null) return null
  const timestampsSeconds = [timestamps.tickSeconds]
  return frameTimes({ timestampsSeconds, playbackFps, captureFps, trusted: true })[0] ?? null
}

function framesOf({ hit, frameTimesSeconds }: MarksSource): MarkedFrame[] {
  const { fromFrame, toFrame } = hit.window
  const touched = [...hit.outlines, ...hit.sightings].map(placed => placed.frame)
  const inWindow = touched.filter(frame => frame >= fromFrame && frame <= toFrame)
  return [...new Set(inWindow)]
    .sort((a, b) => a - b)
    .map(index => {
      const placed = hit.sightings.filter(sighting => sighting.frame === index)
      const hidden = placed.filter(sighting => sighting.kind === 'hidden').map(sighting => sighting.mark)
      return {
        index,
        ...known({
          timeSeconds: frameTimesSeconds[index],
          outline: outlineAt(hit, index, frameTimesSeconds),
        }),
        seen: placed.flatMap((sighting): Sighting[] => {
          if (sighting.kind === 'hidden') return []
          const { mark } = sighting
          if (sighting.kind === 'direction') return [{ mark, bearingDeg: sighting.bearingDeg }]
          return [{ mark, xPx: sighting.xPx, yPx: sighting.yPx }]
        }),
        ...(hidden.length > 0 ? { hidden } : {}),
      }
    })
}

/** Without the fields that nobody knows. */
const known = <T extends object>(fields: T) =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value != null)) as {
    [K in keyof T]?: NonNullable<T[K]>
  }
