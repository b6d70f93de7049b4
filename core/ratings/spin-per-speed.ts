import { radPerSecondOfRpm } from '../units/rate.ts'

export type Normalised = { value: number; standardUncertainty: number | null }

type Spin = { rpm: number; standardUncertaintyRpm: number }
type Speed = { speedMetresPerSecond: number; standardUncertaintySpeed: number | null }

/**
 * Spin over ball speed, rpm per m/s: how much of a swing a paddle turns into spin. Uncertainties are the
 * hit's own; an error of the capture rate stretches spin and speed alike and cancels.
 *
 * Null for a ball that stands still. The uncertainty is null where the speed's is not known.
 */
export function spinPerSpeed(spin: Spin, flight: Speed): Normalised | null {
  const { speedMetresPerSecond: speed, standardUncertaintySpeed } = flight
  if (!(speed > 0)) return null
  const value = spin.rpm / speed
  if (standardUncertaintySpeed === null) return { value, standardUncertainty: null }
  const standardUncertainty = Math.hypot(
    spin.standardUncertaintyRpm / speed,
    (value * standardUncertaintySpeed) / speed,
  )
  return { value, standardUncertainty }
}

/**
 * Spin parameter r·ω/v: the speed of the ball's skin over that of its middle. No unit; the radius is taken
 * as exact.
 *
 * Common in ball aerodynamics, for instance R. Mehta, Annu. Rev. Fluid Mech. 17 (1985) 151 (from memory).
 */
export function spinParameter(spin: Spin, flight: Speed, radiusMetres: number): Normalised | null {
  const perSpeed = spinPerSpeed(spin, flight)
  if (perSpeed === null) return null
  const factor = radiusMetres * radPerSecondOfRpm(1)
  return {
    value: factor * perSpeed.value,
    standardUncertainty: perSpeed.standardUncertainty === null ? null : factor * perSpeed.standardUncertainty,
  }
}
