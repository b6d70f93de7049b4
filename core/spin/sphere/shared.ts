import type { Sights } from './sights.ts'

/**
 * What sightings of a hit have wrong together, as the fit's last unknowns, in this order: the field of view and
 * the readout, in their standard uncertainties; the outline's centre (x, y) and size, in shares of the radius, in
 * the middle of the hit, and by how much more at its end (and less at its beginning): outlines are placed in a
 * few frames and interpolated, so their errors drift; and for each mark the place on the ball of its directions
 * at time 0, in radii (x, y, z).
 */
export type SharedErrors = readonly number[]
/** Positions in it. */
export const viewError = 0
export const readoutError = 1
export const outlineError = 2
export const outlineDrift = 5
export const placeError = (mark: number): number => 8 + 3 * mark
export const noSharedErrors = (markCount: number): SharedErrors =>
  Array.from({ length: placeError(markCount) }, () => 0)

/**
 * An arrow on the ball stands at right angles to its place, which may be anywhere around it: components of a unit
 * vector in a plane have the variance 1/2.
 */
const placeUncertainty = Math.SQRT1_2

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
  // A mark that is clicked as a point too is a place itself, and its direction the bearing of that.
  const hasPlace = (mark: number) =>
    sights.directions.some(s => s.mark === mark && s.view) && sights.points.every(s => s.mark !== mark)
  return [
    sights.viewIsOpen ? 1 : never,
    sights.readoutUncertaintySeconds > 0 ? 1 : never,
    ...[centre, centre, size],
    // Between two outlines that err on their own, the drift is half of their difference.
    ...[Math.SQRT2 * centre, Math.SQRT2 * centre, Math.SQRT2 * size],
    ...sights.marks.flatMap((_, mark) =>
      new Array<number>(3).fill(hasPlace(mark) ? 1 / placeUncertainty : never),
    ),
  ]
}

/** The shared errors that are unknowns of the fit, by their position in `SharedErrors`. */
export const openErrors = (trust: number[]): number[] =>
  trust.flatMap((w, k) => (w < Number.POSITIVE_INFINITY ? [k] : []))
