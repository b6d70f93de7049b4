import { straightLine } from '../numerics/straight-line.ts'
import type { ObservedFrame } from './observations.ts'

/** Mean velocity of the outline's centre in the picture, px a second; 0 where it cannot be told. */
export function ballVelocity(frames: readonly ObservedFrame[]): { x: number; y: number } {
  const seen = frames.flatMap(({ timeSeconds, outline }) => (outline ? [{ timeSeconds, outline }] : []))
  const times = seen.map(frame => frame.timeSeconds)
  const slope = (values: number[]) => straightLine(times, values)?.slope ?? 0
  return {
    x: slope(seen.map(({ outline }) => outline.xPx)),
    y: slope(seen.map(({ outline }) => outline.yPx)),
  }
}
