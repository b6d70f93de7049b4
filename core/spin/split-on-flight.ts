import type { Reading } from '../contract/reading.ts'
import { type SpinParts, spinParts } from '../geometry/spin-parts.ts'
import { angleBetween } from '../geometry/vector.ts'
import { type TimedOutline, type Velocity, velocityOf } from '../geometry/velocity.ts'
import { degOfRad, radOfDeg } from '../units/angle.ts'
import { rpmOfRadPerSecond } from '../units/rate.ts'
import { assumed } from './assumptions.ts'
import type { Estimate } from './estimate.ts'
import type { Observations } from './observations.ts'
import { outlineUncertainty } from './outline-uncertainty.ts'
import { equipmentOf } from './sphere/equipment.ts'

/** Flight and axis known worse than this against each other leave a quarter of one part in another. */
const loosestRad = radOfDeg(15)

export const partsInRpm = ({ topspin, sidespin, gyro }: SpinParts): NonNullable<Reading['parts']> => ({
  topspinRpm: rpmOfRadPerSecond(topspin),
  sidespinRpm: rpmOfRadPerSecond(sidespin),
  gyroRpm: rpmOfRadPerSecond(gyro),
})

/**
 * The rotation split on the way that the outlines fly, where both are known well enough, or the reason why it
 * is not. A camera that stands level is assumed. A reading from the surface has its own flight.
 */
export function splitOnFlight(
  estimate: Estimate,
  o: Observations,
): { parts: Reading['parts']; reasons: string[] } {
  const none = { parts: null, reasons: [] }
  // A cone that mirrored axes open is wider than twice the uncertainty about either.
  const axisRad = estimate.axisConeRad === undefined ? estimate.tiltPriorRad : estimate.axisConeRad / 2
  const outlines = o.frames.flatMap(({ timeSeconds, outline }) => (outline ? [{ timeSeconds, outline }] : []))
  const { camera, steeperCamera } = equipmentOf(o)
  const velocity = velocityOf(outlines, camera, o.ballDiameterMetres)
  const steeper = velocityOf(outlines, steeperCamera, o.ballDiameterMetres)
  if (estimate.method === 'surface' || axisRad === undefined || !velocity || !steeper) return none
  const flightRad = Math.hypot(
    velocity.directionUncertaintyRad,
    placingUncertainty(velocity, outlines, o),
    angleBetween(velocity.metresPerSecond, steeper.metresPerSecond),
  )
  if (Math.hypot(flightRad, axisRad) > loosestRad) {
    const deg = (rad: number) => `${degOfRad(Math.min(rad, Math.PI / 2)).toFixed(0)}°`
    return {
      parts: null,
      reasons: [
        `Not split into topspin, sidespin and gyro: the flight’s direction is known to ${deg(flightRad)}, the axis to ${deg(axisRad)}.`,
      ],
    }
  }
  const parts = spinParts(estimate.rotationRadPerSecond, velocity.metresPerSecond)
  return { parts: parts && partsInRpm(parts), reasons: [] }
}

/**
 * What the placing of outlines leaves open in the direction, radians, one placed at either end of the flight:
 * their scatter about a smooth path does not show it where those between are interpolated.
 */
function placingUncertainty(
  { metresPerSecond, distanceMetres }: Velocity,
  outlines: readonly TimedOutline[],
  o: Observations,
): number {
  const { outline, timeSeconds } = outlines[0]!
  const span = outlines.at(-1)!.timeSeconds - timeSeconds
  const { centrePx, radiusPx } = outlineUncertainty(o.clickPx ?? assumed.clickPx)
  const acrossMetres = ((o.ballDiameterMetres / 2) * centrePx) / outline.radiusPx
  const awayMetres = (distanceMetres * radiusPx) / outline.radiusPx
  return (Math.SQRT2 * Math.hypot(acrossMetres, awayMetres)) / (Math.hypot(...metresPerSecond) * span)
}
