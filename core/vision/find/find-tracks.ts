import type { Luma } from '../luma.ts'
import { backgroundOf, noiseOf } from './background.ts'
import { componentsOf, movedMaskOf } from './blobs.ts'
import { allMoved, type Moved, movedIn, nothingMoved } from './moved.ts'
import { shiftOf } from './shift.ts'
import { type Seen, type Track, tracksOf } from './track.ts'

export type SmallFrame = { frame: number; luma: Luma }
/** The flights, what moved whether or not it was one, and all of it frame by frame. */
export type FoundTracks = { tracks: Track[]; moved: Moved; seen: Seen[] }
/** What the first of the frames showed when they ended the stretch before: they are not looked at again. */
export type SeenBefore = { seen: readonly Seen[]; untilFrame: number }

const aboveNoise = 5
const leastDifference = 7
/**
 * Frames that differ from the background by more all over, in codes, are of another view: no sensor is so noisy by day
 * (common practice, no source), and nothing stands out from such a difference.
 */
const mostNoise = 15
/** The shift is needed to the pixel. */
const wellWithinPx = 0.1
/** Share of the picture's width that a flight crosses at the least. */
export const leastWay = 0.12

/**
 * The flights in a stretch of a clip, from pictures that may be scaled down: what moves against the still
 * background, linked from frame to frame. Places are in px of these pictures.
 */
export function findTracks(frames: readonly SmallFrame[], before?: SeenBefore): FoundTracks {
  const background = backgroundOf(frames.map(({ luma }) => luma))
  if (!background) return { tracks: [], moved: nothingMoved, seen: [] }
  const movedMask = movedMaskOf(background)
  const seen: Seen[] = [...(before?.seen ?? [])]
  let [looked, unlike] = [0, 0]
  for (const { frame, luma } of frames) {
    if (before && frame <= before.untilFrame) continue
    const shift = shiftOf(luma, background, null, wellWithinPx)
    const noise = noiseOf(luma, background, shift.gain, leastDifference / aboveNoise)
    looked++
    if (noise > mostNoise) unlike++
    const threshold = aboveNoise * noise
    const mask = movedMask(luma, background, shift, threshold)
    for (const blob of componentsOf(mask, luma.widthPx)) {
      if (blob.areaPx >= 12) seen.push({ ...blob, frame })
    }
  }
  const tracks = tracksOf(seen, leastWay * background.widthPx)
  const moved = unlike > looked / 2 ? allMoved(frames.map(({ frame }) => frame)) : movedIn(seen, background)
  return { tracks, moved, seen }
}
