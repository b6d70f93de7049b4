import type { Luma } from '../luma.ts'
import type { Shift } from './shift.ts'

/** Something that moved, in one frame: its middle, its extent and its area, px of the picture it was found in. */
export type Blob = { xPx: number; yPx: number; widthPx: number; heightPx: number; areaPx: number }

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

/** Neighbouring pixels of one row, both ends included; `first` leads to the earliest run that hangs together with it. */
type Run = { row: number; from: number; to: number; first: Run | null }

/**
 * Connected parts of a mask (0 or 1 a pixel), eight neighbours: runs of pixels row by row, joined to those that they
 * touch in the row above.
 */
export function componentsOf(mask: Uint8Array, widthPx: number): Blob[] {
  const runs: Run[] = []
  // The first of the runs so far that this one, or one after it, may touch.
  let above = 0
  for (let at = mask.indexOf(1); at >= 0; ) {
    const row = Math.floor(at / widthPx)
    const rowEnd = (row + 1) * widthPx
    let end = at + 1
    while (end < rowEnd && mask[end] === 1) end++
    const run: Run = { row, from: at - row * widthPx, to: end - 1 - row * widthPx, first: null }
    while (above < runs.length && isPast(runs[above]!, run)) above++
    for (let k = above; k < runs.length && runs[k]!.row < row && runs[k]!.from <= run.to + 1; k++)
      join(runs[k]!, run)
    runs.push(run)
    at = mask.indexOf(1, end)
  }
  return [...groupedRuns(runs)].map(blobOf)
}

const isPast = (above: Run, { row, from }: Run): boolean =>
  above.row < row - 1 || (above.row === row - 1 && above.to < from - 1)

function firstOf(run: Run): Run {
  let first = run
  while (first.first) first = first.first
  // The way is kept short for those who ask next.
  if (first !== run) run.first = first
  return first
}

function join(a: Run, b: Run): void {
  const [first, second] = [firstOf(a), firstOf(b)]
  if (first === second) return
  const isEarlier = first.row < second.row || (first.row === second.row && first.from < second.from)
  if (isEarlier) second.first = first
  else first.first = second
}

/** The runs of each part, in the order in which the parts begin. */
function groupedRuns(runs: readonly Run[]): Iterable<Run[]> {
  const parts = new Map<Run, Run[]>()
  for (const run of runs) {
    const first = firstOf(run)
    const part = parts.get(first)
    if (part) part.push(run)
    else parts.set(first, [run])
  }
  return parts.values()
}

function blobOf(runs: readonly Run[]): Blob {
  let [area, x, y, left, right] = [0, 0, 0, Number.POSITIVE_INFINITY, 0]
  for (const { row, from, to } of runs) {
    const count = to - from + 1
    area += count
    x += (count * (from + to)) / 2
    y += count * row
    left = Math.min(left, from)
    right = Math.max(right, to)
  }
  return {
    xPx: x / area + 0.5,
    yPx: y / area + 0.5,
    widthPx: right - left + 1,
    heightPx: runs.at(-1)!.row - runs[0]!.row + 1,
    areaPx: area,
  }
}
