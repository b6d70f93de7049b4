import type { Luma } from '../luma.ts'
import type { Shift } from './shift.ts'

/** Something that moved, in one frame: its middle, its extent and its area, px of the picture it was found in. */
export type Blob = { xPx: number; yPx: number; widthPx: number; heightPx: number; areaPx: number }

/** Connected parts of a mask (0 or 1 a pixel). Handed in where the host has a faster one. */
export type ComponentsOf = (mask: Uint8Array, widthPx: number, heightPx: number) => Blob[]

/** Pixels that differ from the background by more than the noise, small gaps closed. */
export function movedMask(frame: Luma, background: Luma, shift: Shift, threshold: number): Uint8Array {
  const { widthPx, heightPx, data } = frame
  const mask = new Uint8Array(widthPx * heightPx)
  const sx = Math.round(shift.x)
  const sy = Math.round(shift.y)
  for (let row = 1; row < heightPx - 1; row++)
    for (let column = 1; column < widthPx - 1; column++) {
      const at = row * widthPx + column
      const from =
        Math.min(Math.max(row - sy, 0), heightPx - 1) * widthPx +
        Math.min(Math.max(column - sx, 0), widthPx - 1)
      if (Math.abs(data[at]! - shift.gain * background.data[from]!) > threshold) mask[at] = 1
    }
  return opened(mask, widthPx, heightPx)
}

/** A pixel counts when at least four of the nine around it do: lone pixels go, pinholes are filled. */
function opened(mask: Uint8Array, widthPx: number, heightPx: number): Uint8Array {
  const out = new Uint8Array(mask.length)
  for (let row = 1; row < heightPx - 1; row++)
    for (let column = 1; column < widthPx - 1; column++) {
      const at = row * widthPx + column
      let count = 0
      for (let dy = -widthPx; dy <= widthPx; dy += widthPx)
        count += mask[at + dy - 1]! + mask[at + dy]! + mask[at + dy + 1]!
      out[at] = count >= 4 ? 1 : 0
    }
  return out
}

/** Connected parts by flooding, eight neighbours. */
export const componentsOf: ComponentsOf = (mask, widthPx, heightPx) => {
  const left = mask.slice()
  const blobs: Blob[] = []
  const stack = new Int32Array(mask.length)
  for (let start = 0; start < left.length; start++) {
    if (left[start] === 0) continue
    let top = 0
    stack[top++] = start
    left[start] = 0
    let [area, x, y, x0, x1, y0, y1] = [0, 0, 0, widthPx, -1, heightPx, -1]
    while (top > 0) {
      const at = stack[--top]!
      const column = at % widthPx
      const row = (at - column) / widthPx
      area++
      x += column
      y += row
      x0 = Math.min(x0, column)
      x1 = Math.max(x1, column)
      y0 = Math.min(y0, row)
      y1 = Math.max(y1, row)
      for (let r = Math.max(row - 1, 0); r <= Math.min(row + 1, heightPx - 1); r++)
        for (let c = Math.max(column - 1, 0); c <= Math.min(column + 1, widthPx - 1); c++) {
          const next = r * widthPx + c
          if (left[next] === 0) continue
          left[next] = 0
          stack[top++] = next
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
