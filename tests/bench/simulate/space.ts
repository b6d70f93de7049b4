/** The simulator's own geometry: nothing of it comes from core/, so that one cannot hide faults of the other. */
export type P3 = [number, number, number]

export const add = (a: P3, b: P3, k = 1): P3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]]
export const inner = (a: P3, b: P3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
export const norm = (a: P3) => Math.sqrt(inner(a, a))
export const outer = (a: P3, b: P3): P3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
export const times = (a: P3, k: number): P3 => [a[0] * k, a[1] * k, a[2] * k]

/** Turns `p` about `w` by |w| radians, by a product of quaternions. */
export function spun(p: P3, w: P3): P3 {
  const angle = norm(w)
  if (angle === 0) return p
  const c = Math.cos(angle / 2)
  const v = times(w, Math.sin(angle / 2) / angle)
  const t = times(outer(v, p), 2)
  return add(add(p, t, c), outer(v, t))
}

/** Two directions square to `a` and to each other. */
export function square(a: P3): [P3, P3] {
  const helper: P3 = Math.abs(a[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0]
  const e = outer(a, helper)
  const first = times(e, 1 / norm(e))
  const second = outer(a, first)
  return [first, times(second, 1 / norm(second))]
}
