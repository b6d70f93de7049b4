import type { Circle } from './circle.ts'
import { lineOfSight } from './line-of-sight.ts'
import { type Pinhole, sphereOfOutline } from './outline-of-sphere.ts'
import { dot, length, scaled, sum, unit, type Vector } from './vector.ts'

/**
 * How one frame shows the ball: what turns a place on the ball (unit vector from its centre, camera axes)
 * into a pixel and back.
 *
 * A far view (focal length unknown, `camera` null) is a parallel projection along z: the mark at pixel
 * offset (dx, dy) from the centre faces the camera at (dx/r, dy/r, −√(1 − (dx² + dy²)/r²)).
 * A near view is a pinhole's: the ball stands `distanceRadii` away along `toBall`.
 */
export type BallView = {
  outline: Circle
  camera: Pinhole | null
  toBall: Vector
  distanceRadii: number
}

const straightAway: Vector = [0, 0, 1]

export function ballView(outline: Circle, camera: Pinhole | null): BallView {
  if (!camera) return { outline, camera, toBall: straightAway, distanceRadii: Number.POSITIVE_INFINITY }
  return { outline, camera, ...sphereOfOutline(outline, camera) }
}

/** How far a place lies in front of the rim: positive where the camera sees it, 0 on the rim; in radii. */
export const heightOverRim = (view: BallView, u: Vector): number =>
  -dot(u, view.toBall) - 1 / view.distanceRadii

/** The pixel at which a place on the ball is (or, behind the rim, would be) seen. */
export function pixelOf(view: BallView, u: Vector): readonly [xPx: number, yPx: number] {
  const seen = new Float64Array(5)
  project(view, u, seen)
  return [view.outline.xPx + seen[0]!, view.outline.yPx + seen[1]!]
}

/**
 * The same for inner loops, with slopes, into `out`: the offset from the outline's centre (x, y, px), then
 * k, qx, qy. When the place moves by du the pixel moves by k·(du_x − qx·du_z, du_y − qy·du_z).
 */
export function project(view: BallView, u: ArrayLike<number>, out: Float64Array): void {
  const { outline, camera, toBall, distanceRadii } = view
  if (!camera) {
    out[0] = outline.radiusPx * u[0]!
    out[1] = outline.radiusPx * u[1]!
    out[2] = outline.radiusPx
    out[3] = 0
    out[4] = 0
    return
  }
  const depth = distanceRadii * toBall[2] + u[2]!
  const qx = (distanceRadii * toBall[0] + u[0]!) / depth
  const qy = (distanceRadii * toBall[1] + u[1]!) / depth
  out[0] = camera.xPx + camera.focalPx * qx - outline.xPx
  out[1] = camera.yPx + camera.focalPx * qy - outline.yPx
  out[2] = camera.focalPx / depth
  out[3] = qx
  out[4] = qy
}

/**
 * The place on the near side that shows at a pixel, a unit vector. A pixel outside the outline gives the
 * nearest place on the rim: what a click just beside the ball must mean.
 */
export function placeAt(view: BallView, xPx: number, yPx: number): Vector {
  const { outline, camera } = view
  if (!camera) {
    const x = (xPx - outline.xPx) / outline.radiusPx
    const y = (yPx - outline.yPx) / outline.radiusPx
    const outside = Math.hypot(x, y)
    return outside >= 1 ? [x / outside, y / outside, 0] : [x, y, -Math.sqrt(1 - x * x - y * y)]
  }
  const ray = lineOfSight(camera, xPx, yPx)
  const along = view.distanceRadii * dot(ray, view.toBall)
  const inside = 1 - (view.distanceRadii ** 2 - along * along)
  const near = along - Math.sqrt(Math.max(inside, 0))
  const place = sum(scaled(ray, near), scaled(view.toBall, -view.distanceRadii))
  return length(place) > 0 ? unit(place) : scaled(view.toBall, -1)
}
