/**
 * Brightness of a part of a picture, row by row, 8 bits or finer. `xPx`, `yPx` say where its first pixel
 * lies in the picture as shown; a pixel with number n covers n to n + 1, so its middle is n + 0.5.
 */
export type Luma = {
  xPx: number
  yPx: number
  widthPx: number
  heightPx: number
  data: Uint8Array | Float32Array
}

/** Brightness at a place of the picture (px as shown), between the middles of its four pixels; edges go on. */
export function brightnessAt({ xPx, yPx, widthPx, heightPx, data }: Luma, x: number, y: number): number {
  const u = Math.min(Math.max(x - xPx - 0.5, 0), widthPx - 1.001)
  const v = Math.min(Math.max(y - yPx - 0.5, 0), heightPx - 1.001)
  const column = Math.floor(u)
  const row = Math.floor(v)
  const at = row * widthPx + column
  const right = u - column
  const top = data[at]! + right * (data[at + 1]! - data[at]!)
  const bottom = data[at + widthPx]! + right * (data[at + widthPx + 1]! - data[at + widthPx]!)
  return top + (v - row) * (bottom - top)
}
