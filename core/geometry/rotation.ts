import type { Vector } from './vector.ts'

/** A rotation matrix, row by row. */
export type Rotation = readonly [number, number, number, number, number, number, number, number, number]

/**
 * The rotation by |w| radians about w, right-hand rule.
 * Source: Rodrigues' formula, R = cos θ·I + sin θ·[n]× + (1 − cos θ)·n nᵀ.
 */
export function rotationFromVector(w: Vector): Rotation {
  const theta = Math.hypot(w[0], w[1], w[2])
  // (1 − cos θ)/θ² through the half angle, which keeps its digits for small angles.
  const half = theta / 2
  const sincHalf = half < 1e-8 ? 1 : Math.sin(half) / half
  const a = theta < 1e-8 ? 1 : Math.sin(theta) / theta
  const b = (sincHalf * sincHalf) / 2
  const c = Math.cos(theta)
  const [x, y, z] = w
  return [
    c + b * x * x,
    b * x * y - a * z,
    b * x * z + a * y,
    b * x * y + a * z,
    c + b * y * y,
    b * y * z - a * x,
    b * x * z - a * y,
    b * y * z + a * x,
    c + b * z * z,
  ]
}

/** R·v. */
export const turned = (r: Rotation, v: Vector): Vector => [
  r[0] * v[0] + r[1] * v[1] + r[2] * v[2],
  r[3] * v[0] + r[4] * v[1] + r[5] * v[2],
  r[6] * v[0] + r[7] * v[1] + r[8] * v[2],
]

/** Rᵀ·v: the same turn backwards. */
export const turnedBack = (r: Rotation, v: Vector): Vector => [
  r[0] * v[0] + r[3] * v[1] + r[6] * v[2],
  r[1] * v[0] + r[4] * v[1] + r[7] * v[2],
  r[2] * v[0] + r[5] * v[1] + r[8] * v[2],
]
