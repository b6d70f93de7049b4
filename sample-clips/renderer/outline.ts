import { dot, length, type Vec3 } from './vector.ts'

/** The ball's outline on the picture: a sphere's outline through a pinhole is an ellipse. */
export type OutlineEllipse = {
  xPx: number
  yPx: number
  /** Half length away from the picture's middle, and across that. */
  radialPx: number
  tangentialPx: number
  /** Direction of the first. */
  radialAt: readonly [number, number]
}

/**
 * Outline of a sphere at `centre` (camera axes, metres): the cone of half angle α = asin(R/|C|) at angle θ
 * from the optical axis cuts the picture plane in an ellipse with, N = cos²θ − sin²α,
 * centre f·sinθ·cosθ/N from the middle, half axes f·sinα·cosα/N and f·sinα/√N.
 */
export function outlineOf(
  centre: Vec3,
  radiusMetres: number,
  camera: { widthPx: number; heightPx: number; focalLengthPx: number },
): OutlineEllipse {
  const [x, y, z] = centre
  const distance = length(centre)
  const sinA = radiusMetres / distance
  const cosT = z / distance
  const sinT = Math.hypot(x, y) / distance
  const n = cosT * cosT - sinA * sinA
  const off = Math.hypot(x, y)
  const radialAt = off === 0 ? ([1, 0] as const) : ([x / off, y / off] as const)
  const away = (camera.focalLengthPx * sinT * cosT) / n
  return {
    xPx: camera.widthPx / 2 + away * radialAt[0],
    yPx: camera.heightPx / 2 + away * radialAt[1],
    radialPx: (camera.focalLengthPx * sinA * Math.sqrt(1 - sinA * sinA)) / n,
    tangentialPx: (camera.focalLengthPx * sinA) / Math.sqrt(n),
    radialAt,
  }
}

/** Where a point in camera axes shows on the picture. */
export const project = (
  point: Vec3,
  camera: { widthPx: number; heightPx: number; focalLengthPx: number },
): readonly [number, number] => [
  camera.widthPx / 2 + (camera.focalLengthPx * point[0]) / point[2],
  camera.heightPx / 2 + (camera.focalLengthPx * point[1]) / point[2],
]

/** Cosine between a surface's outward direction and the way to the camera; above 0 the camera can see it. */
export const facing = (point: Vec3, outward: Vec3): number => -dot(point, outward) / length(point)
