import { straightLine } from '../../numerics/straight-line.ts'
import type { Luma } from '../../vision/luma.ts'

/** Where an edge stands between two pictures: its column at mid-height, and its slant over the whole height, px. */
export type SweptEdge = { atPx: number; slantPx: number; rows: number }

/** Grey levels: what a plain edge changes a pixel by as it sweeps over it. */
const leastChange = 16
/** An edge must be seen in this part of the rows. */
const leastRows = 0.4
const margin = 2

/**
 * The edge that sweeps over the picture from one frame to the next, making pixels brighter (`sign` 1) or darker
 * (−1): in each row the middle of what changed, and a line through the rows. Null where no such line is seen.
 */
export function sweptEdge(before: Luma, after: Luma, sign: 1 | -1): SweptEdge | null {
  const { widthPx, heightPx } = after
  const rows: { y: number; x: number; mass: number }[] = []
  for (let y = 0; y < heightPx; y++) {
    let [mass, moment, first, last] = [0, 0, widthPx, -1]
    for (let x = 0; x < widthPx; x++) {
      const change = sign * (after.data[y * widthPx + x]! - before.data[y * widthPx + x]!)
      if (change < leastChange) continue
      mass += change
      moment += change * (x + 0.5)
      first = Math.min(first, x)
      last = x
    }
    // Half of what changes may lie outside of the picture.
    if (mass > 0 && first >= margin && last < widthPx - margin)
      rows.push({ y: y + 0.5, x: moment / mass, mass })
  }
  const masses = rows.map(row => row.mass).sort((a, b) => a - b)
  const usual = masses[masses.length >> 1] ?? 0
  const seen = rows.filter(({ mass }) => mass > usual / 2 && mass < 2 * usual)
  return lineThrough(seen, heightPx)
}

function lineThrough(rows: { x: number; y: number }[], heightPx: number): SweptEdge | null {
  if (rows.length < leastRows * heightPx) return null
  const line = straightLine(
    rows.map(row => row.y),
    rows.map(row => row.x),
  )
  if (!line) return null
  const off = ({ x, y }: { x: number; y: number }) => Math.abs(x - line.intercept - line.slope * y)
  const usual = rows.map(off).sort((a, b) => a - b)[rows.length >> 1]!
  const near = rows.filter(row => off(row) <= 5 * usual + 0.5)
  if (near.length < rows.length) return lineThrough(near, heightPx)
  return {
    atPx: line.intercept + (line.slope * heightPx) / 2,
    slantPx: line.slope * heightPx,
    rows: rows.length,
  }
}
