import { readoutDelaySeconds } from '../timing/readout.ts'
import { assumed } from './assumptions.ts'
import { ballVelocity } from './ball-velocity.ts'
import type { Observations, Sighting } from './observations.ts'

/**
 * The sightings as bearings, ready for the search and the fit: one typed array a quantity, in the order
 * of `Observations.sightings`.
 *
 * `pxPerRad` is how far the mark moves for a radian about the ball's centre: its distance from the
 * centre, ρ. A click error σ makes a bearing error σ/ρ, so information goes with ρ².
 */
export type Bearings = {
  count: number
  bearingRad: Float64Array
  timeSeconds: Float64Array
  pxPerRad: Float64Array
  /** Position in `Observations.marks`, and 2π/m of that mark. */
  mark: Int32Array
  periodRad: Float64Array
  /** How many different marks were seen; each takes an offset of its own. */
  marksSeen: number
}

export function bearingsOf(o: Observations): Bearings {
  const count = o.sightings.length
  const bearings: Bearings = {
    count,
    bearingRad: new Float64Array(count),
    timeSeconds: new Float64Array(count),
    pxPerRad: new Float64Array(count),
    mark: new Int32Array(count),
    periodRad: new Float64Array(count),
    marksSeen: new Set(o.sightings.map(sighting => sighting.mark)).size,
  }
  const readoutSeconds = readoutOf(o)
  const velocity = readoutSeconds > 0 ? ballVelocity(o.frames) : { x: 0, y: 0 }
  o.sightings.forEach((sighting, k) => {
    const outline = o.frames[sighting.frame]!.outline
    bearings.mark[k] = sighting.mark
    bearings.periodRad[k] = (2 * Math.PI) / o.marks[sighting.mark]!.symmetryOrder
    bearings.timeSeconds[k] = seenAtSeconds(o, sighting)
    if (sighting.kind === 'point') {
      // The outline stands for the ball when its middle row was read; till this row it has moved on.
      const secondsLater = (readoutSeconds * (sighting.yPx - outline!.yPx)) / o.picture.heightPx
      const dx = sighting.xPx - outline!.xPx - velocity.x * secondsLater
      const dy = sighting.yPx - outline!.yPx - velocity.y * secondsLater
      bearings.bearingRad[k] = Math.atan2(dy, dx)
      bearings.pxPerRad[k] = Math.hypot(dx, dy)
    } else {
      bearings.bearingRad[k] = sighting.bearingRad
      // Judged along a line through the ball: as good as a click at the rim, or as eyes are without one.
      bearings.pxPerRad[k] = outline?.radiusPx ?? (o.clickPx ?? assumed.clickPx) / assumed.directionRad
    }
  })
  return bearings
}

/** When a mark was seen: its frame's time, and with a rolling shutter the time that its row took longer. */
function seenAtSeconds(o: Observations, sighting: Sighting): number {
  const frame = o.frames[sighting.frame]!
  const yPx = sighting.kind === 'point' ? sighting.yPx : (frame.outline?.yPx ?? 0)
  return frame.timeSeconds + readoutDelaySeconds(yPx, o.picture, readoutOf(o))
}

/** A readout that nobody knows is taken in the middle of what it can be; the rest is in the budget. */
const readoutOf = ({ capture }: Observations): number =>
  capture.readoutSeconds ?? assumed.readoutIntervals / capture.fps
