import type { Pinhole } from './outline-of-sphere.ts'
import type { Rotation } from './rotation.ts'
import { unit, type Vector } from './vector.ts'

/** The direction in which a pixel is seen, a unit vector in camera axes. */
export const lineOfSight = (camera: Pinhole, xPx: number, yPx: number): Vector =>
  unit([(xPx - camera.xPx) / camera.focalPx, (yPx - camera.yPx) / camera.focalPx, 1])

/**
 * The shortest turn that takes the z axis onto a line of sight: from the axes of a picture cut out around
 * the ball (z along that line) into the camera's axes, common to all frames.
 * Source: Rodrigues' formula about z × d. `toBall` must not point backwards along z.
 */
export function viewRotation(toBall: Vector): Rotation {
  const [x, y, z] = toBall
  const k = 1 / (1 + z)
  return [1 - k * x * x, -k * x * y, x, -k * x * y, 1 - k * y * y, y, -x, -y, z]
}
