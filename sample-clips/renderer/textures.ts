/** Writes linear RGB albedo at (u, v) metres on a plane into `out`. */
export type Texture = (u: number, v: number, out: Float64Array) => void

const hash = (i: number, j: number) => {
  let h = Math.imul(i, 0x27d4eb2d) ^ Math.imul(j, 0x165667b1)
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d)
  return ((h ^ (h >>> 13)) >>> 0) / 4294967296
}
const ease = (t: number) => t * t * (3 - 2 * t)

/** Value noise in 0…1 with cells of 1. */
function noise(x: number, y: number): number {
  const [i, j] = [Math.floor(x), Math.floor(y)]
  const [a, b] = [ease(x - i), ease(y - j)]
  const top = hash(i, j) * (1 - a) + hash(i + 1, j) * a
  const bottom = hash(i, j + 1) * (1 - a) + hash(i + 1, j + 1) * a
  return top * (1 - b) + bottom * b
}
const set = (out: Float64Array, r: number, g: number, b: number, k: number) => {
  out[0] = r * k
  out[1] = g * k
  out[2] = b * k
}
const fraction = (x: number) => x - Math.floor(x)

const plaster: Texture = (u, v, out) =>
  set(out, 0.42, 0.41, 0.38, 0.9 + 0.16 * noise(u * 9, v * 9) * noise(u * 60, v * 60))

/** Plaster over a painted dado, a rail between, and a hung net with a white tape. */
export const hallWall: Texture = (u, v, out) => {
  plaster(u, v, out)
  if (v > 0.02) set(out, 0.1, 0.17, 0.21, 0.92 + 0.14 * noise(u * 14, v * 14))
  if (v > 0 && v < 0.03) set(out, 0.3, 0.2, 0.11, 1)
  if (u > 0.18 && u < 0.62) {
    if (v > -0.34 && v < -0.28) set(out, 0.72, 0.72, 0.7, 1)
    else if (v >= -0.28 && (fraction(u / 0.045) < 0.12 || fraction(v / 0.045) < 0.12))
      set(out, 0.02, 0.02, 0.02, 1)
  }
}

/** A board with rows of small holes, tools hung on it, a shelf rail. */
export const workshopWall: Texture = (u, v, out) => {
  set(out, 0.34, 0.25, 0.16, 0.86 + 0.24 * noise(u * 5, v * 40))
  if (Math.hypot(fraction(u / 0.05) - 0.5, fraction(v / 0.05) - 0.5) < 0.09) set(out, 0.03, 0.025, 0.02, 1)
  const slot = Math.floor(u / 0.16)
  const [along, top] = [fraction(u / 0.16) * 0.16, -0.36 + 0.12 * hash(slot, 7)]
  const long = 0.16 + 0.2 * hash(slot, 3)
  if (hash(slot, 1) < 0.62 && v > top && v < top + long && along > 0.06 && along < 0.1) {
    if (v < top + long * 0.55) set(out, 0.3, 0.31, 0.33, 1)
    else if (hash(slot, 2) < 0.5) set(out, 0.42, 0.05, 0.04, 1)
    else set(out, 0.04, 0.1, 0.3, 1)
  }
}

/** Wire mesh before dark hedging. */
export const fenceWall: Texture = (u, v, out) => {
  set(out, 0.035, 0.075, 0.04, 0.45 + 1.3 * noise(u * 22, v * 22) * noise(u * 5, v * 5))
  const [a, b] = [fraction((u + v) / 0.07), fraction((u - v) / 0.07)]
  if (a < 0.07 || b < 0.07) set(out, 0.2, 0.21, 0.2, 1)
  if (fraction(u / 0.85 + 0.3) < 0.05) set(out, 0.16, 0.17, 0.16, 1)
}

/** A plain paper sweep, a little darker downwards. */
export const paperWall: Texture = (u, v, out) =>
  set(out, 0.3, 0.31, 0.32, 1 - 0.5 * v + 0.03 * noise(u * 3, v * 3))

/** Dark cloth in folds. */
export const curtainWall: Texture = (u, v, out) => {
  const fold = 0.5 + 0.5 * Math.sin(u * 34 + 3 * noise(u * 4, v * 0.8))
  set(out, 0.05, 0.055, 0.09, 0.35 + 0.9 * fold * fold + 0.1 * noise(u * 90, v * 30))
}

/** Bricks in mortar, no two of one colour. */
export const brickWall: Texture = (u, v, out) => {
  const row = Math.floor(v / 0.075)
  const along = u / 0.22 + (row & 1) / 2
  const brick = hash(Math.floor(along), row)
  const mortar = fraction(along) < 0.055 || fraction(v / 0.075) < 0.15
  if (mortar) set(out, 0.36, 0.34, 0.31, 0.9 + 0.2 * noise(u * 80, v * 80))
  else set(out, 0.24 + 0.1 * brick, 0.1 + 0.04 * brick, 0.07, 0.7 + 0.5 * noise(u * 30, v * 30))
}

/** Shelves of boxes in many colours. */
export const shelfWall: Texture = (u, v, out) => {
  const row = Math.floor(v / 0.28)
  const along = u / 0.17 + 0.37 * row
  const box = Math.floor(along)
  const height = 0.12 + 0.13 * hash(box, row + 11)
  const down = fraction(v / 0.28) * 0.28
  if (down > 0.258) set(out, 0.32, 0.24, 0.15, 1)
  else if (down < 0.258 - height || fraction(along) < 0.08) set(out, 0.03, 0.03, 0.035, 1)
  else
    set(
      out,
      0.06 + 0.4 * hash(box, row),
      0.06 + 0.35 * hash(box + 40, row),
      0.06 + 0.3 * hash(box, row + 40),
      1,
    )
}

export const woodTable: Texture = (u, v, out) =>
  set(out, 0.4, 0.27, 0.15, 0.75 + 0.4 * noise(u * 4, v * 55) + 0.08 * noise(u * 40, v * 300))
export const courtFloor: Texture = (u, v, out) => {
  set(out, 0.06, 0.14, 0.3, 0.85 + 0.3 * noise(u * 120, v * 120))
  if (Math.abs(v - 2.05) < 0.03) set(out, 0.7, 0.7, 0.7, 1)
}
export const rubberFloor: Texture = (u, v, out) =>
  set(out, 0.09, 0.13, 0.12, 0.8 + 0.5 * noise(u * 200, v * 200))
export const concreteFloor: Texture = (u, v, out) =>
  set(out, 0.27, 0.26, 0.25, 0.75 + 0.3 * noise(u * 7, v * 7) + 0.2 * noise(u * 90, v * 90))
