import { assumed } from '../assumptions.ts'
import type { Sights } from './sights.ts'

/**
 * What sightings of a hit have wrong together, as the fit's last unknowns, in this order: the field of view, the
 * readout and the change of spin, in their standard uncertainties; the outline's centre (x, y) and size, in shares of
 * the radius, in the middle of the hit, how they drift along it and how they bend; and for each mark the place on the
 * ball of its directions at time 0, in radii (x, y, z).
 *
 * Outlines are placed in some frames and interpolated, and what is left of them on a smooth path (see smooth-path.ts)
 * errs as slowly as the ball flies: constant, straight and bent parts are Legendre's polynomials over the hit.
 */
export type SharedErrors = readonly number[]
/** Positions in it. */
export const viewError = 0
export const readoutError = 1
export const decayError = 2
export const outlineError = 3
export const outlineDrift = 6
export const outlineBend = 9
export const placeError = (mark: number): number => 12 + 3 * mark
export const noSharedErrors = (markCount: number): SharedErrors =>
  Array.from({ length: placeError(markCount) }, () => 0)

/**
 * The time at which a ball that held its rate would have turned as far as this one when a sighting was read: from
 * the middle of the hit, for a readout that takes `lateSeconds` more than was taken and a spin that grows by the share
 * `growth` a second. The mean rate from the first to the last sighting is left as it is.
 */
export const turningSeconds = (
  s: { timeSeconds: number; rowShare: number },
  lateSeconds: number,
  growth: number,
): number => s.timeSeconds + lateSeconds * s.rowShare + (growth * s.timeSeconds ** 2) / 2

/** What `turningSeconds` moves by for the change of spin, in its standard uncertainty. */
export const turningByDecay = (timeSeconds: number): number => (assumed.decayPerSecond * timeSeconds ** 2) / 2

/** Share a second by which the spin grows. */
export const growthOf = (shared: SharedErrors): number => shared[decayError]! * assumed.decayPerSecond

/**
 * An arrow on the ball stands at right angles to its place, which may be anywhere around it: components of a unit
 * vector in a plane have the variance 1/2.
 */
const placeUncertainty = Math.SQRT1_2

/** Where some outlines are placed only, it is every few frames. */
const framesBetweenOutlines = 4

/**
 * Variances of an outline's drift and bend over that of one placed outline, each at its largest. Between two at the
 * ends that err on their own the drift is half of their difference: 1/2. A parabola through k evenly placed ones bends
 * with the variance 5/k, the mean square of Legendre's second polynomial being 1/5; through three, exactly, 2/3.
 */
const driftVariance = 1 / 2
const bendVariance = (outlines: number): number => Math.min(2 / 3, 5 / (outlines / framesBetweenOutlines + 1))

/**
 * How firmly each is held at 0: 1/standard uncertainty in its own unit, infinite for one that is not an
 * unknown at all because the sights leave no room for it.
 */
export function sharedTrust(
  sights: Sights,
  outline: { centrePx: number; radiusPx: number } | null,
): number[] {
  const never = Number.POSITIVE_INFINITY
  const open = outline && sights.points.length > 0 ? outline : { centrePx: 0, radiusPx: 0 }
  const centre = sights.radiusPx / open.centrePx
  const size = sights.radiusPx / open.radiusPx
  const drift = 1 / Math.sqrt(driftVariance)
  const bend = 1 / Math.sqrt(bendVariance(sights.outlineCount))
  // A mark that is clicked as a point too is a place itself, and its direction the bearing of that.
  const hasPlace = (mark: number) =>
    sights.directions.some(s => s.mark === mark && s.view) && sights.points.every(s => s.mark !== mark)
  return [
    sights.viewIsOpen ? 1 : never,
    sights.readoutUncertaintySeconds > 0 ? 1 : never,
    1,
    // A soft edge may be off by as much in the whole hit: the mean of several outlines is held no firmer than one.
    ...[centre, centre, size],
    ...[drift * centre, drift * centre, drift * size],
    ...[bend * centre, bend * centre, bend * size],
    ...sights.marks.flatMap((_, mark) =>
      new Array<number>(3).fill(hasPlace(mark) ? 1 / placeUncertainty : never),
    ),
  ]
}

/** The shared errors that are unknowns of the fit, by their position in `SharedErrors`. */
export const openErrors = (trust: number[]): number[] =>
  trust.flatMap((w, k) => (w < Number.POSITIVE_INFINITY ? [k] : []))
