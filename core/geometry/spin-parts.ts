import { cross, dot, length, unit, type Vector } from './vector.ts'

/** The rotation split on the flight, rad/s: method.md, "topspin, backspin, sidespin, gyro". */
export type SpinParts = { topspin: number; sidespin: number; gyro: number }

/** Up for a camera that stands level: against y of camera axes. */
const up: Vector = [0, -1, 0]

/**
 * Topspin about the horizontal across the flight (the ball's top goes forward: positive), gyro about the flight
 * (right-handed), sidespin about what stands square on both, upwards: the vertical of a level flight (counter-
 * clockwise from above: positive). Their squares add up to the rate's. Null for a ball that goes straight up.
 */
export function spinParts(rotation: Vector, velocity: Vector): SpinParts | null {
  const across = cross(up, velocity)
  if (!(length(across) > 0.05 * length(velocity))) return null
  const flight = unit(velocity)
  const side = unit(across)
  return {
    topspin: dot(rotation, side),
    gyro: dot(rotation, flight),
    sidespin: dot(rotation, cross(flight, side)),
  }
}

/** How steeply the ball leaves, rad: upwards positive. */
export const launchAngle = ([x, y, z]: Vector): number => Math.atan2(-y, Math.hypot(x, z))
