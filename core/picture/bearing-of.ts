import type { PlacedSighting } from '../contract/bench.ts'
import type { Outline } from '../contract/marks.ts'
import { degOfRad } from '../units/angle.ts'

/** Bearing of a point around a centre, in degrees from 0 up to but not including 360 (x right, y down). */
export function bearingDegOf(dx: number, dy: number): number {
  const deg = degOfRad(Math.atan2(dy, dx))
  return deg < 0 ? deg + 360 : deg
}

/** The bearing at which a sighting stands around the ball, 0 to 360; null for a hidden mark. */
export function bearingOf(sighting: PlacedSighting, outline: Outline | null): number | null {
  if (sighting.kind === 'direction') return ((sighting.bearingDeg % 360) + 360) % 360
  if (sighting.kind === 'hidden' || outline === null) return null
  return bearingDegOf(sighting.xPx - outline.xPx, sighting.yPx - outline.yPx)
}
