/** A point or direction: x right, y down, z away from the camera (or the ball's own axes). */
export type Vec3 = readonly [number, number, number]
/** A rotation matrix, row by row. */
export type Mat3 = readonly [number, number, number, number, number, number, number, number, number]

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
export const scale = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k]
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2])
export const unit = (a: Vec3): Vec3 => scale(a, 1 / length(a))
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]

/** Any unit vector across `a`. */
export const across = (a: Vec3): Vec3 => unit(cross(a, Math.abs(a[0]) < 0.8 ? [1, 0, 0] : [0, 1, 0]))

/** The rotation by |v| radians about v, right-hand rule, through the unit quaternion of v. */
export function rotationBy(v: Vec3): Mat3 {
  const angle = length(v)
  const w = Math.cos(angle / 2)
  const k = angle === 0 ? 0 : Math.sin(angle / 2) / angle
  const [x, y, z] = scale(v, k)
  return [
    1 - 2 * (y * y + z * z),
    2 * (x * y - w * z),
    2 * (x * z + w * y),
    2 * (x * y + w * z),
    1 - 2 * (x * x + z * z),
    2 * (y * z - w * x),
    2 * (x * z - w * y),
    2 * (y * z + w * x),
    1 - 2 * (x * x + y * y),
  ]
}

export const apply = (m: Mat3, v: Vec3): Vec3 => [
  m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
  m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
  m[6] * v[0] + m[7] * v[1] + m[8] * v[2],
]

export function multiply(a: Mat3, b: Mat3): Mat3 {
  const column = (i: 0 | 1 | 2): Vec3 => apply(a, [b[i], b[(i + 3) as 3], b[(i + 6) as 6]])
  const [p, q, r] = [column(0), column(1), column(2)]
  return [p[0], q[0], r[0], p[1], q[1], r[1], p[2], q[2], r[2]]
}

/** The rotation that turns the ball's axes so that `from` shows along `to` and `fromUp` as near `toUp` as can be. */
export function rotationOnto(from: Vec3, fromUp: Vec3, to: Vec3, toUp: Vec3): Mat3 {
  const frame = (a: Vec3, up: Vec3): [Vec3, Vec3, Vec3] => {
    const side = unit(cross(up, a))
    return [side, cross(a, side), unit(a)]
  }
  const [a, b] = [frame(from, fromUp), frame(to, toUp)]
  const cell = (row: 0 | 1 | 2, column: 0 | 1 | 2) =>
    b[0][row] * a[0][column] + b[1][row] * a[1][column] + b[2][row] * a[2][column]
  return [
    cell(0, 0),
    cell(0, 1),
    cell(0, 2),
    cell(1, 0),
    cell(1, 1),
    cell(1, 2),
    cell(2, 0),
    cell(2, 1),
    cell(2, 2),
  ]
}
