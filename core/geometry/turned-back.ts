import { type BallView, heightOverRim, pixelOf, placeAt } from './ball-view.ts'
import { rotationFromVector, turned } from './rotation.ts'
import { cross, scaled, sum, unit, type Vector } from './vector.ts'

/** A frame of a turning ball: how it shows the ball, and when its first row was exposed, seconds. */
export type TurningView = { view: BallView; timeSeconds: number }

/** Nearer to the rim than this, in radii, the surface is seen too much from the side to be shown. */
const leastHeight = 0.08

/**
 * Where in a later frame to look for each pixel of the ball as an earlier frame shows it, if it turns by
 * `radPerSecond` (camera axes, right-hand rule). The picture is square, `side` pixels wide, and the outline
 * touches its edges. Answers x and y (px of the later frame) of one pixel after the other, row by row; NaN
 * outside the outline and for what the later frame does not see.
 *
 * @param rowSeconds from one row of the sensor to the next; 0 for a global shutter
 */
export function turnedBackPlaces(
  first: TurningView,
  later: TurningView,
  radPerSecond: Vector,
  side: number,
  rowSeconds = 0,
): Float32Array {
  const { outline } = first.view
  const places = new Float32Array(2 * side * side).fill(Number.NaN)
  const seconds = ({ view, timeSeconds }: TurningView) => timeSeconds + rowSeconds * view.outline.yPx
  const rotation = rotationFromVector(scaled(radPerSecond, seconds(later) - seconds(first)))
  for (let row = 0; row < side; row++) {
    for (let column = 0; column < side; column++) {
      const x = (2 * (column + 0.5)) / side - 1
      const y = (2 * (row + 0.5)) / side - 1
      if (x * x + y * y >= 1) continue
      const start = placeAt(
        first.view,
        outline.xPx + x * outline.radiusPx,
        outline.yPx + y * outline.radiusPx,
      )
      const middle = turned(rotation, start)
      const [, yPx] = pixelOf(later.view, middle)
      // Within the ball the rows differ by little: the turn between them is a short step along the surface.
      const late = rowSeconds * (yPx - later.view.outline.yPx - y * outline.radiusPx)
      const place = unit(sum(middle, scaled(cross(radPerSecond, middle), late)))
      if (heightOverRim(later.view, place) < leastHeight) continue
      places.set(pixelOf(later.view, place), 2 * (row * side + column))
    }
  }
  return places
}
