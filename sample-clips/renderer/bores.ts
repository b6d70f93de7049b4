import { dot, type Vec3 } from './vector.ts'

/** Cells along each edge of the cube that sorts directions. */
const CELLS = 48

/** For each cell of a cube around the ball the hole that a ray there could meet (they lie far apart). */
function nearestHoles(holes: readonly Vec3[]): Uint8Array {
  const nearest = new Uint8Array(6 * CELLS * CELLS)
  for (let face = 0; face < 6; face++)
    for (let row = 0; row < CELLS; row++)
      for (let column = 0; column < CELLS; column++) {
        const a = ((column + 0.5) / CELLS) * 2 - 1
        const b = ((row + 0.5) / CELLS) * 2 - 1
        const sign = face < 3 ? 1 : -1
        const at: Vec3 = face % 3 === 0 ? [sign, a, b] : face % 3 === 1 ? [a, sign, b] : [a, b, sign]
        let best = 0
        holes.forEach((hole, i) => {
          if (dot(hole, at) > dot(holes[best]!, at)) best = i
        })
        nearest[(face * CELLS + row) * CELLS + column] = best
      }
  return nearest
}

function cellOf(x: number, y: number, z: number): number {
  const ax = Math.abs(x)
  const ay = Math.abs(y)
  const az = Math.abs(z)
  const face = ax >= ay && ax >= az ? (x > 0 ? 0 : 3) : ay >= az ? (y > 0 ? 1 : 4) : z > 0 ? 2 : 5
  const k = CELLS / 2 / Math.max(ax, ay, az)
  const column = Math.min(CELLS - 1, ((face % 3 === 0 ? y : x) * k + CELLS / 2) | 0)
  const row = Math.min(CELLS - 1, ((face % 3 === 2 ? y : z) * k + CELLS / 2) | 0)
  return (face * CELLS + row) * CELLS + column
}

/** The bores of a shell's holes, as cylinders of `holeRadius` about their axes; lengths in outer radii. */
export function makeBores(holes: readonly Vec3[], holeRadius: number) {
  const nearest = nearestHoles(holes)
  const axes = new Float64Array(holes.flat())
  const holeRadius2 = holeRadius * holeRadius

  /** Where in `axes` the hole stands whose bore holds the point, or −1. */
  function boreAt(x: number, y: number, z: number): number {
    if (axes.length === 0) return -1
    const hole = nearest[cellOf(x, y, z)]! * 3
    const along = x * axes[hole]! + y * axes[hole + 1]! + z * axes[hole + 2]!
    return along > 0 && x * x + y * y + z * z - along * along < holeRadius2 ? hole : -1
  }

  return { axes, boreAt }
}
