import { brightnessAt, type Luma } from '../luma.ts'
import type { Shift } from './shift.ts'

/** A picture, how it stands against the background, and where a path has its object in it. */
type Looked = { luma: Luma; shift: Shift; xPx: number; yPx: number }
/** A disc that goes along with a path: how far its middle lies from the path's, and its radius. */
export type BesidePath = { dxPx: number; dyPx: number; radiusPx: number }

/** Of a square about the path, whose half width is so many radii. */
const cells = 48
const reach = 3
const mostLooks = 16
/** Of a cell's looks, those that changed least: what else comes by is there for a short while. */
const calm = 2 / 3
/** Codes. More is no more change, so that a bright part does not outweigh a faint one; less than so much over the floor is none. */
const mostChange = 12
const aboveFloor = 1.5
/** The largest disc looked for, in cells. */
const widest = 20

/**
 * The disc that holds most of what changes along a path, a few pixels coarse. Over all frames together even a part of
 * a ball that is as bright as the wall behind it changes it: by its holes, and as the wall's brightness varies. Null where too
 * little of the square is in the pictures.
 */
export function changedDisc(looks: readonly Looked[], background: Luma, radiusPx: number): BesidePath | null {
  const cellPx = (2 * reach * radiusPx) / cells
  const change = changeAbout(looks, background, cellPx)
  const seen = change.filter(value => !Number.isNaN(value)).sort()
  if (seen.length < change.length / 4) return null
  const level = seen[seen.length >> 2]! + aboveFloor
  let best = { sum: 0, column: 0, row: 0, ring: 0 }
  for (let row = cells / 4; row < (3 * cells) / 4; row++)
    for (let column = cells / 4; column < (3 * cells) / 4; column++) {
      let sum = 0
      ringsAbout(change, column, row, level).forEach((own, ring) => {
        sum += own
        if (sum > best.sum) best = { sum, column, row, ring }
      })
    }
  const fromMiddle = (place: number) => (place + 0.5 - cells / 2) * cellPx
  return best.sum > 0
    ? {
        dxPx: fromMiddle(best.column),
        dyPx: fromMiddle(best.row),
        radiusPx: (best.ring + 0.5) * cellPx,
      }
    : null
}

/** Mean change of brightness by cell; NaN where fewer than half of the pictures reach. */
function changeAbout(looks: readonly Looked[], background: Luma, cellPx: number): Float64Array {
  const taken = looks.filter((_, k) => k % Math.ceil(looks.length / mostLooks) === 0)
  return Float64Array.from({ length: cells ** 2 }, (_, at) => {
    const [dx, dy] = [at % cells, Math.floor(at / cells)].map(
      place => (place + 0.5 - cells / 2) * cellPx,
    ) as [number, number]
    const changes = taken.flatMap(({ luma, shift, xPx, yPx }) => {
      const [x, y] = [xPx + dx, yPx + dy]
      if (!(x > luma.xPx + 1 && y > luma.yPx + 1)) return []
      if (!(x < luma.xPx + luma.widthPx - 1 && y < luma.yPx + luma.heightPx - 1)) return []
      const wall = shift.gain * brightnessAt(background, x - shift.x, y - shift.y)
      return [Math.min(Math.abs(brightnessAt(luma, x, y) - wall), mostChange)]
    })
    if (changes.length < taken.length / 2) return Number.NaN
    const counted = changes.sort((a, b) => a - b).slice(0, Math.ceil(calm * changes.length))
    return counted.reduce((sum, value) => sum + value, 0) / counted.length
  })
}

/** Change over the level by rings about a cell. */
function ringsAbout(change: Float64Array, column: number, row: number, level: number): Float64Array {
  const sums = new Float64Array(widest + 1)
  for (let r = Math.max(0, row - widest); r <= Math.min(cells - 1, row + widest); r++)
    for (let c = Math.max(0, column - widest); c <= Math.min(cells - 1, column + widest); c++) {
      const ring = Math.ceil(Math.sqrt((c - column) ** 2 + (r - row) ** 2))
      const own = change[r * cells + c]!
      if (ring <= widest && !Number.isNaN(own)) sums[ring]! += own - level
    }
  return sums
}
