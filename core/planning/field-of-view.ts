import { radOfDeg } from '../units/angle.ts'

/**
 * Focal length in px of a camera that sees so many degrees across its picture: half the width over the
 * tangent of half the angle (pinhole; E. Hecht, Optics, 5.7.6; from memory).
 */
export const focalOfAngle = (widthPx: number, acrossDeg: number): number =>
  widthPx / 2 / Math.tan(radOfDeg(acrossDeg) / 2)

/** Focal length in px of a camera whose picture is so many metres wide at a distance. */
export const focalOfWidth = (widthPx: number, widthMetres: number, distanceMetres: number): number =>
  (widthPx * distanceMetres) / widthMetres

/** Focal length in px of a camera that shows a ball of known size at a known distance so large (far away: r/d ≪ 1). */
export const focalOfBall = (diameterPx: number, diameterMetres: number, distanceMetres: number): number =>
  diameterPx * Math.sqrt((distanceMetres / diameterMetres) ** 2 - 1 / 4)
