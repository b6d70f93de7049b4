import type { HitMarks, PlacedOutline } from '../contract/bench.ts'
import type { Outline } from '../contract/marks.ts'
import { pathAt } from './path-at.ts'

/**
 * The ball's circle in any frame, from the outlines that a person placed: as placed where one is, between
 * and beyond them along the flight. Null while none is placed.
 *
 * The centre follows `pathAt`; the radius changes in a straight line between neighbours and stays as it
 * is beyond the ends, where nothing is known of it.
 *
 * @param frameTimesSeconds real times by frame of the clip: with dropped frames the ball moves further
 * from one frame to the next. Without them the frames count as evenly spaced.
 */
export function outlineAt(
  hit: Pick<HitMarks, 'outlines'>,
  frame: number,
  frameTimesSeconds?: readonly number[],
): Outline | null {
  const placed = hit.outlines.toSorted((a, b) => a.frame - b.frame)
  if (placed.length === 0) return null
  const timeOf = (f: number) => frameTimesSeconds?.[f] ?? f
  const time = timeOf(frame)
  const times = placed.map(outline => timeOf(outline.frame))
  const path = (value: (outline: PlacedOutline) => number) => pathAt(times, placed.map(value), time)
  return {
    xPx: path(outline => outline.xPx),
    yPx: path(outline => outline.yPx),
    radiusPx: radiusAt(times, placed, time),
  }
}

function radiusAt(times: number[], placed: PlacedOutline[], time: number): number {
  const next = times.findIndex(t => t >= time)
  if (next === -1) return placed.at(-1)!.radiusPx
  if (next === 0) return placed[0]!.radiusPx
  const share = (time - times[next - 1]!) / (times[next]! - times[next - 1]!)
  return placed[next - 1]!.radiusPx * (1 - share) + placed[next]!.radiusPx * share
}
