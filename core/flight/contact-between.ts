import type { FlightOutline } from '../vision/find/outline-flight.ts'

export type ContactBetween = { lastFrameBefore: number; firstFrameAfter: number; atFrame: number }

/**
 * The contact between two flights that follow one another: where the paths, drawn on straight from their last
 * (first) three frames, come nearest to each other, in frames. It lies between the last frame of the one and the
 * first of the other, so it is held to that. Null when the second flight does not begin where the first ended.
 */
export function contactBetween(
  before: readonly FlightOutline[],
  after: readonly FlightOutline[],
): ContactBetween | null {
  const [last, first] = [before.at(-1), after[0]]
  const [lastBut, second] = [before.at(-4) ?? before[0], after[3] ?? after.at(-1)]
  if (!(last && first && lastBut && second) || last === lastBut || first === second) return null
  const gap = first.frame - last.frame
  if (gap < 1 || gap > 8) return null
  const apart = Math.hypot(first.outline.xPx - last.outline.xPx, first.outline.yPx - last.outline.yPx)
  if (apart > 5 * last.outline.radiusPx) return null
  const slope = (a: FlightOutline, b: FlightOutline) => [
    (b.outline.xPx - a.outline.xPx) / (b.frame - a.frame),
    (b.outline.yPx - a.outline.yPx) / (b.frame - a.frame),
  ]
  const [ux, uy] = slope(lastBut, last)
  const [vx, vy] = slope(first, second)
  const dx = first.outline.xPx - last.outline.xPx - vx! * gap
  const dy = first.outline.yPx - last.outline.yPx - vy! * gap
  const [wx, wy] = [ux! - vx!, uy! - vy!]
  const speed = wx * wx + wy * wy
  const along = speed > 0 ? (dx * wx + dy * wy) / speed : gap / 2
  const atFrame = last.frame + Math.min(Math.max(along, 0), gap)
  const lastFrameBefore = Math.min(Math.floor(atFrame), first.frame - 1)
  return { lastFrameBefore, firstFrameAfter: lastFrameBefore + 1, atFrame }
}
