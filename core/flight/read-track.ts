import type { Outline } from '../contract/marks.ts'
import type { Reading } from '../contract/reading.ts'
import { isWhole } from '../vision/find/by-appearance.ts'
import { type CropFrame, type FlightOutline, outlineFlight } from '../vision/find/outline-flight.ts'
import type { Track } from '../vision/find/track.ts'
import type { Pointed } from '../vision/propose.ts'
import { type Known, readFlight } from './read-flight.ts'

/** A flight found and read: what a person is shown as a proposal. */
export type FoundFlight = {
  reading: Reading
  outlines: FlightOutline[]
  /** As given or as estimated with the rotation; null where neither is known. */
  focalLengthPx: number | null
  /** What stands out most on the ball, in the frame that shows it best: a mark to propose. */
  feature: Pointed | null
}

/**
 * From a track (px of the whole picture) and the full-size pictures around its path to the reading. Outlines
 * that a person has corrected stand as they are. Null when no ball can be made out along the track: an arm, a
 * shadow, a paddle.
 */
export function readTrack(
  track: Track,
  crops: readonly CropFrame[],
  known: Known,
  corrected: ReadonlyMap<number, Outline> = new Map(),
): FoundFlight | null {
  const found = outlineFlight(track, crops, {
    ...known.picture,
    fps: known.capture.fps,
    readoutSeconds: known.capture.readoutSeconds ?? 0,
    exposureSeconds: known.capture.exposureSeconds ?? null,
    focalLengthPx: known.capture.focalLengthPx ?? null,
  })
  if (!found) return null
  const outlines = found.outlines.map(one => {
    const outline = corrected.get(one.frame)
    return outline ? { ...one, outline } : one
  })
  const byFrame = new Map(crops.map(crop => [crop.frame, crop]))
  // A ball that the picture's edge cuts is there for a person to see: its surface takes no part in the reading.
  const frames = outlines
    .filter(({ outline }) => isWhole(outline, known.picture))
    .map(({ frame, outline }) => {
      const { timeSeconds, luma } = byFrame.get(frame)!
      return { index: frame, timeSeconds, outline, luma }
    })
  const { reading, surface } = readFlight(frames, known)
  return {
    reading,
    outlines,
    focalLengthPx: surface?.solution.focalPx ?? known.capture.focalLengthPx ?? null,
    feature: surface?.feature ?? null,
  }
}
