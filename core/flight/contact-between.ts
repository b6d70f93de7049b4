import { meetingOf } from '../vision/find/meeting.ts'
import type { FlightOutline } from '../vision/find/outline-flight.ts'

export type ContactBetween = { lastFrameBefore: number; firstFrameAfter: number; atFrame: number }

/** Frames between two flights in which a paddle may cover the ball, and those that both may have taken for theirs. */
const mostBetween = 8
const mostShared = 2
/** One ball: its size to within this factor, and the paths meet to within so many radii. */
const likeSize = 1.2
const meets = 0.7

/**
 * The contact between two flights: where the paths, drawn on straight from the last (first) few frames, come nearest
 * to each other, in frames. Null when the second flight is not the first one's ball, does not begin where the first
 * ended, or goes on as the first did.
 */
export function contactBetween(
  before: readonly FlightOutline[],
  after: readonly FlightOutline[],
): ContactBetween | null {
  const [last, first] = [before.at(-1), after[0]]
  if (!last || !first) return null
  const between = first.frame - last.frame - 1
  const size = last.outline.radiusPx / first.outline.radiusPx
  if (between < -mostShared || between > mostBetween || size > likeSize || size < 1 / likeSize) return null
  const meeting = meetingOf(before.map(placeOf), after.map(placeOf))
  if (!meeting || meeting.apartPx > meets * last.outline.radiusPx) return null
  const [from, to] = [Math.min(last.frame, first.frame - 1), Math.max(first.frame, last.frame + 1)]
  const atFrame = Math.min(Math.max(meeting.atFrame, from), to)
  const lastFrameBefore = Math.min(Math.floor(atFrame), to - 1)
  return { lastFrameBefore, firstFrameAfter: lastFrameBefore + 1, atFrame }
}

const placeOf = ({ frame, outline: { xPx, yPx } }: FlightOutline) => ({ frame, xPx, yPx })
