import type { Luma } from '../luma.ts'
import type { Shift } from './shift.ts'

/** Something that moved, in one frame: its middle, its extent and its area, px of the picture it was found in. */
export type Blob = { xPx: number; yPx: number; widthPx: number; heightPx: number; areaPx: number }

/** Connected parts of a mask (0 or 1 a pixel). Handed in where the host has a faster one. */
export type ComponentsOf = (mask: Uint8Array, widthPx: number, heightPx: number) => Blob[]
type Size = { widthPx: number; heightPx: number }
/** Pixels that differ from the background by more than `threshold`, small gaps closed: good until the next call. */
export type MovedMask = (frame: Luma, background: Luma, shift: Shift, threshold: number) => Uint8Array

/** A pixel counts when so many of the nine around it moved: lone pixels go, pinholes are filled. */
const fewestOfNine = 4

/** For pictures of one size. A strip that the background does not show, because the camera shook, is left out. */
export function movedMaskOf({ widthPx, heightPx }: Size): MovedMask {
  const differs = new Uint8Array(widthPx * heightPx)
  const mask = new Uint8Array(widthPx * heightPx)
  const inRow = new Uint32Array(heightPx)
  return ({ data }, background, { x, y, gain }, threshold) => {
    differs.fill(0)
    mask.fill(0)
    inRow.fill(0)
    const [sx, sy] = [Math.round(x), Math.round(y)]
    const [fromColumn, toColumn] = [Math.max(1, sx), Math.min(widthPx - 1, widthPx + sx)]
    const [fromRow, toRow] = [Math.max(1, sy), Math.min(heightPx - 1, heightPx + sy)]
    const compare = (row: number) => {
      const [from, to] = [row * widthPx + fromColumn, row * widthPx + toColumn]
      const stillFrom = (row - sy) * widthPx + fromColumn - sx
      inRow[row] = markDiffering(data, background.data, differs, from, to, stillFrom, gain, threshold)
    }
    // What lies in one row alone goes: a row that has nothing in every other row near it need not be looked at.
    for (let row = fromRow; row < toRow; row += 2) compare(row)
    for (let row = fromRow + 1; row < toRow; row += 2) {
      const near =
        (inRow[row - 1] ?? 0) + (inRow[row + 1] ?? 0) + (inRow[row - 3] ?? 0) + (inRow[row + 3] ?? 0)
      if (near > 0 || row === toRow - 1) compare(row)
    }
    for (let row = 1; row < heightPx - 1; row++)
      if (inRow[row - 1]! + inRow[row]! + inRow[row + 1]! >= fewestOfNine)
        markOpened(differs, mask, row, widthPx)
    return mask
  }
}

/** Marks the pixels from `from` to `to` that differ from the background's, which begin at `stillFrom`: how many. */
function markDiffering(
  data: Luma['data'],
  still: Luma['data'],
  differs: Uint8Array,
  from: number,
  to: number,
  stillFrom: number,
  gain: number,
  threshold: number,
): number {
  let count = 0
  for (let at = from, there = stillFrom; at < to; at++, there++)
    if (Math.abs(data[at]! - gain * still[there]!) > threshold) {
      differs[at] = 1
      count++
    }
  return count
}

function markOpened(differs: Uint8Array, mask: Uint8Array, row: number, widthPx: number): void {
  const end = (row + 1) * widthPx - 1
  let above = (row - 1) * widthPx + 1
  let below = above + 2 * widthPx
  let at = above + widthPx
  let left = differs[above - 1]! + differs[at - 1]! + differs[below - 1]!
  let here = differs[above]! + differs[at]! + differs[below]!
  for (; at < end; at++) {
    const right = differs[++above]! + differs[at + 1]! + differs[++below]!
    if (left + here + right >= fewestOfNine) mask[at] = 1
    left = here
    here = right
  }
}

/** Connected parts by flooding, eight neighbours. */
export const componentsOf: ComponentsOf = (mask, widthPx, heightPx) => {
  const left = mask.slice()
  const blobs: Blob[] = []
  const stack: number[] = []
  for (let start = left.indexOf(1); start >= 0; start = left.indexOf(1, start + 1)) {
    stack.push(start)
    left[start] = 0
    let [area, x, y, x0, x1, y0, y1] = [0, 0, 0, widthPx, -1, heightPx, -1]
    while (stack.length > 0) {
      const at = stack.pop()!
      const row = Math.floor(at / widthPx)
      const column = at - row * widthPx
      area++
      x += column
      y += row
      if (column < x0) x0 = column
      if (column > x1) x1 = column
      if (row < y0) y0 = row
      if (row > y1) y1 = row
      const [before, after] = [column > 0 ? 1 : 0, column < widthPx - 1 ? 1 : 0]
      const last = row < heightPx - 1 ? at + widthPx : at
      for (let middle = row > 0 ? at - widthPx : at; middle <= last; middle += widthPx)
        for (let next = middle - before; next <= middle + after; next++) {
          if (left[next] === 0) continue
          left[next] = 0
          stack.push(next)
        }
    }
    blobs.push({
      xPx: x / area + 0.5,
      yPx: y / area + 0.5,
      widthPx: x1 - x0 + 1,
      heightPx: y1 - y0 + 1,
      areaPx: area,
    })
  }
  return blobs
}
