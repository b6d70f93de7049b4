/** Three numbers in camera axes: x right, y down, z away from the camera. */
export type Vector = readonly [x: number, y: number, z: number]

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]

export const length = (a: Vector): number => Math.hypot(a[0], a[1], a[2])

export const scaled = (a: Vector, by: number): Vector => [a[0] * by, a[1] * by, a[2] * by]

export const sum = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]

/** The vector with length 1; a zero vector has no direction and gives NaN. */
export const unit = (a: Vector): Vector => scaled(a, 1 / length(a))

/** Angle between two vectors, 0 to π; exact for small angles too, where an arc cosine is not. */
export const angleBetween = (a: Vector, b: Vector): number => Math.atan2(length(cross(a, b)), dot(a, b))

/**
 * Two unit vectors that stand square on `a` and on each other, right-handed: first × second = a / |a|.
 * Source: Duff et al., Building an orthonormal basis, revisited, J. Computer Graphics Techniques 6 (2017) 1.
 */
export function tangents(a: Vector): readonly [Vector, Vector] {
  const [x, y, z] = unit(a)
  const sign = z < 0 ? -1 : 1
  const p = -1 / (sign + z)
  const q = x * y * p
  return [
    [1 + sign * x * x * p, sign * q, -sign * x],
    [q, sign + y * y * p, -y],
  ]
}
