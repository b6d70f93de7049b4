/** Is there ink at (x, y)? x right, y down, the artwork within −1…1. */
type Artwork = (x: number, y: number) => boolean

const disc = (x: number, y: number, cx: number, cy: number, r: number) => Math.hypot(x - cx, y - cy) < r
const bar = (x: number, y: number, x0: number, x1: number, y0: number, y1: number) =>
  x > x0 && x < x1 && y > y0 && y < y1

/** Invented marks: each reads one way up only, is no mirror image of itself, and has ink at its middle. */
const logos = {
  /** A pole with a three-cornered flag that flies to the right. */
  pennant: (x, y) =>
    bar(x, y, -0.94, -0.66, -0.98, 0.98) || (x >= -0.5 && Math.abs(y + 0.2) < 0.72 * (1 - (x + 0.5) / 1.48)),
  /** A head with three trailing bars of unequal length. */
  comet: (x, y) =>
    disc(x, y, 0.42, -0.05, 0.52) ||
    bar(x, y, -0.55, 0.4, -0.57, -0.29) ||
    bar(x, y, -0.98, 0.4, -0.19, 0.09) ||
    bar(x, y, -0.3, 0.4, 0.19, 0.47) ||
    bar(x, y, -0.98, 0.94, 0.68, 0.86),
  /** Two peaks, the right one higher, over a bar with a gap. */
  ridge: (x, y) =>
    (y < 0.42 && y > -0.95 + 1.9 * Math.abs(x - 0.28)) ||
    (y < 0.42 && y > -0.3 + 1.5 * Math.abs(x + 0.5)) ||
    bar(x, y, -0.98, 0.25, 0.58, 0.86) ||
    bar(x, y, 0.5, 0.98, 0.58, 0.86),
  /** A curl that opens to the upper right round a disc. */
  curl: (x, y) => {
    const radius = Math.hypot(x, y)
    const turn = Math.atan2(y, x)
    const ring = radius > 0.55 && radius < 0.9 && !(turn > -1.25 && turn < 0.05)
    return radius < 0.33 || ring || bar(x, y, 0.55, 0.98, 0.0, 0.3)
  },
  /** A fork of three prongs, the middle one longest, on a bent stem. */
  fork: (x, y) =>
    bar(x, y, -0.14, 0.14, -0.98, 0.98) ||
    bar(x, y, -0.75, -0.47, -0.6, 0.2) ||
    bar(x, y, 0.47, 0.75, -0.35, 0.2) ||
    bar(x, y, -0.75, 0.75, -0.05, 0.22) ||
    bar(x, y, 0.14, 0.62, 0.72, 0.98),
} satisfies Record<string, Artwork>

export type LogoName = keyof typeof logos

/** A logo as ink density on a square grid of `size` cells over −1…1, four by four looks a cell. */
export function rasterise(ink: LogoName | 'dot', size: number): Float32Array {
  const artwork: Artwork = ink === 'dot' ? (x, y) => disc(x, y, 0, 0, 0.98) : logos[ink]
  const density = new Float32Array(size * size)
  const at = (cell: number, look: number) => ((cell + (look + 0.5) / 4) / size) * 2 - 1
  for (let row = 0; row < size; row++)
    for (let column = 0; column < size; column++) {
      let inked = 0
      for (let look = 0; look < 16; look++) inked += +artwork(at(column, look & 3), at(row, look >> 2))
      density[row * size + column] = inked / 16
    }
  return density
}
