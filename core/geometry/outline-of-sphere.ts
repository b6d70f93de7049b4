import type { Circle } from './circle.ts'
import type { Vector } from './vector.ts'

/** A pinhole camera: focal length and principal point, pixels. */
export type Pinhole = { focalPx: number; xPx: number; yPx: number }

/**
 * A ball as a pinhole camera sees it: the unit vector to its centre (camera axes) and its distance in ball
 * radii, which is 1/sin of half the angle that it fills.
 */
export type BallInSpace = { toBall: Vector; distanceRadii: number }

/**
 * The outline of a ball under a pinhole: an ellipse, long towards the edge of the picture, its centre
 * pushed outwards from where the ball's centre is seen. Given back as the circle of the mean half axis.
 *
 * With θ the angle off the optical axis and α half the angle that the ball fills, on the plane z = 1:
 * centre sin θ cos θ / D, half axes sin α cos α / D and sin α / √D, where D = cos²θ − sin²α.
 * Derivation: the section of the cone of tangents, angle α about the line of sight, with the plane z = 1.
 */
export function outlineOfSphere(ball: BallInSpace, camera: Pinhole): Circle {
  const [x, y, z] = ball.toBall
  const s = 1 / ball.distanceRadii ** 2
  const d = z * z - s
  const outwards = z / d
  return {
    xPx: camera.xPx + camera.focalPx * outwards * x,
    yPx: camera.yPx + camera.focalPx * outwards * y,
    radiusPx: (camera.focalPx / 2) * (Math.sqrt(s * (1 - s)) / d + Math.sqrt(s / d)),
  }
}

/**
 * The ball that shows the given outline: `outlineOfSphere` turned round. The two equations settle within
 * six rounds, as each round leaves an error smaller by the factor sin²α.
 */
export function sphereOfOutline(outline: Circle, camera: Pinhole): BallInSpace {
  const x = (outline.xPx - camera.xPx) / camera.focalPx
  const y = (outline.yPx - camera.yPx) / camera.focalPx
  const radius = outline.radiusPx / camera.focalPx
  let s = 0
  let shrink = 1
  for (let round = 0; round < 6; round++) {
    const cosSquared = 1 / (1 + (x * x + y * y) * shrink * shrink)
    const d = cosSquared - s
    const sinAlpha = (2 * radius) / (Math.sqrt(1 - s) / d + 1 / Math.sqrt(d))
    s = Math.min(sinAlpha * sinAlpha, 0.9 * cosSquared)
    shrink = 1 - s / cosSquared
  }
  const scale = 1 / Math.hypot(x * shrink, y * shrink, 1)
  return { toBall: [x * shrink * scale, y * shrink * scale, scale], distanceRadii: 1 / Math.sqrt(s) }
}
