import type { Point } from '../picture/view.ts'

const radOf = (deg: number) => (deg * Math.PI) / 180

/** The screen point at a bearing around a centre: 0° to the right, growing clockwise (y down). */
export const onDial = (centre: Point, radius: number, bearingDeg: number): Point => ({
  x: centre.x + radius * Math.cos(radOf(bearingDeg)),
  y: centre.y + radius * Math.sin(radOf(bearingDeg)),
})

/** A radial stroke of the dial as an SVG path. */
export function stroke(centre: Point, from: number, to: number, bearingDeg: number): string {
  const a = onDial(centre, from, bearingDeg)
  const b = onDial(centre, to, bearingDeg)
  return `M${a.x.toFixed(2)} ${a.y.toFixed(2)}L${b.x.toFixed(2)} ${b.y.toFixed(2)}`
}

/** Every look-alike of a bearing on the dial: a mark of order m looks the same each 360/m degrees. */
export const alikes = (bearingDeg: number, symmetryOrder: number): number[] =>
  Array.from({ length: symmetryOrder }, (_, turn) => bearingDeg + (360 * turn) / symmetryOrder)
