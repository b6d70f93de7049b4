import { goesOn } from './meeting.ts'
import type { Track } from './track.ts'

/** Frames in which a ball may be lost before a part of the wall that is as bright as it. */
export const mostLost = 12
/** By how much the parts that are seen before and after may differ in size, as a factor. */
const likeSize = 1.7
/** And, half way between, in place: in radii of the larger. Gravity takes a third of that, the part seen the rest. */
const likePlace = 1

/**
 * Tracks with those made one that are pieces of one flight: the second begins soon after the first has ended, where the first
 * leads to, and goes on as it did. The nearest of several that fit is taken. Tracks in px of one picture, in order of time.
 */
export function joined(tracks: readonly Track[]): Track[] {
  const out: Track[] = []
  for (const track of tracks) {
    const offs = out.map(before => offBetween(before, track))
    const least = Math.min(...offs)
    if (least > likePlace) out.push({ ...track })
    else {
      const before = out[offs.indexOf(least)]!
      before.seen = [...before.seen, ...track.seen]
      before.radiusPx = Math.max(before.radiusPx, track.radiusPx)
    }
  }
  return out
}

/** How far the second track lies from where the first leads, in radii; infinite where it is none of its pieces. */
function offBetween(before: Track, after: Track): number {
  const lost = after.seen[0]!.frame - before.seen.at(-1)!.frame - 1
  const size = before.radiusPx / after.radiusPx
  if (lost < 0 || lost > mostLost || size > likeSize || size < 1 / likeSize) return Number.POSITIVE_INFINITY
  const apartPx = goesOn(before.seen, after.seen)
  return apartPx === null ? Number.POSITIVE_INFINITY : apartPx / Math.max(before.radiusPx, after.radiusPx)
}
