import { encode } from 'fast-png'
import type { FramePicture } from '../../core/contract/calls.ts'
import type { Outline } from '../../core/contract/marks.ts'
import { i420ToRgba } from '../../core/picture/i420.ts'

/** A picture in memory: RGBA, rows unpadded. */
export type Rgba = { widthPx: number; heightPx: number; data: Uint8ClampedArray }

export const rgbaOfFrame = (picture: FramePicture): Rgba => ({
  widthPx: picture.widthPx,
  heightPx: picture.heightPx,
  data: i420ToRgba(picture),
})

export const pngOfPhotograph = ({ widthPx: width, heightPx: height, data }: Rgba): Buffer =>
  Buffer.from(
    data.some((value, i) => i % 4 === 3 && value < 255)
      ? encode({ width, height, data: new Uint8Array(data), channels: 4, depth: 8 })
      : encode({ width, height, data: opaque(data), channels: 3, depth: 8 }),
  )
export const pngBase64 = (picture: Rgba): string => pngOfPhotograph(picture).toString('base64')

function opaque(rgba: Uint8ClampedArray): Uint8Array {
  const rgb = new Uint8Array((rgba.length / 4) * 3)
  for (let from = 0, to = 0; from < rgba.length; from += 4, to += 3)
    rgb.set(rgba.subarray(from, from + 3), to)
  return rgb
}

/** The square around a ball, `sidePx` a side; the ball fills most of it. What lies outside the picture is grey. */
export function ballTile(picture: Rgba, { xPx, yPx, radiusPx }: Outline, sidePx: number): Rgba {
  const half = radiusPx / 0.86
  const step = (2 * half) / sidePx
  const data = new Uint8ClampedArray(sidePx * sidePx * 4)
  for (let row = 0; row < sidePx; row++)
    for (let column = 0; column < sidePx; column++)
      sample(
        picture,
        xPx - half + (column + 0.5) * step,
        yPx - half + (row + 0.5) * step,
        data,
        (row * sidePx + column) * 4,
      )
  return { widthPx: sidePx, heightPx: sidePx, data }
}

/** The places of a ball's px for `sampledAt`: a square with the outline at its edges, NaN outside of it. */
export function ballAt({ xPx, yPx, radiusPx }: Outline, sidePx: number): Float32Array {
  const places = new Float32Array(2 * sidePx * sidePx).fill(Number.NaN)
  for (let row = 0; row < sidePx; row++)
    for (let column = 0; column < sidePx; column++) {
      const [x, y] = [(2 * (column + 0.5)) / sidePx - 1, (2 * (row + 0.5)) / sidePx - 1]
      if (x * x + y * y < 1) places.set([xPx + x * radiusPx, yPx + y * radiusPx], 2 * (row * sidePx + column))
    }
  return places
}

/** A square of the picture's colours at places (x and y of one px after the other); where there is none, nothing. */
export function sampledAt(picture: Rgba, places: Float32Array, sidePx: number): Rgba {
  const data = new Uint8ClampedArray(sidePx * sidePx * 4)
  for (let i = 0; i < sidePx * sidePx; i++) {
    const [x, y] = [places[2 * i]!, places[2 * i + 1]!]
    if (x >= 0 && y >= 0 && x < picture.widthPx && y < picture.heightPx) sample(picture, x, y, data, 4 * i)
  }
  return { widthPx: sidePx, heightPx: sidePx, data }
}

const surround = 118

/** Bilinear; pixel (0, 0) has its middle at (0.5, 0.5). */
function sample(
  { widthPx, heightPx, data }: Rgba,
  x: number,
  y: number,
  into: Uint8ClampedArray,
  at: number,
): void {
  if (x < 0 || y < 0 || x > widthPx || y > heightPx) {
    into.fill(surround, at, at + 3)
    into[at + 3] = 255
    return
  }
  const left = Math.min(Math.max(x - 0.5, 0), widthPx - 1.001)
  const top = Math.min(Math.max(y - 0.5, 0), heightPx - 1.001)
  const [column, row] = [Math.floor(left), Math.floor(top)]
  const [u, v] = [left - column, top - row]
  const from = (row * widthPx + column) * 4
  const below = from + widthPx * 4
  for (let c = 0; c < 4; c++)
    into[at + c] =
      (data[from + c]! * (1 - u) + data[from + 4 + c]! * u) * (1 - v) +
      (data[below + c]! * (1 - u) + data[below + 4 + c]! * u) * v
}

/** Lays the ball of another picture of the same size over this one, with a soft rim of a pixel. */
export function layBall(onto: Rgba, from: Rgba, { xPx, yPx, radiusPx }: Outline): void {
  const reach = radiusPx + 2
  const top = Math.max(0, Math.floor(yPx - reach))
  const bottom = Math.min(onto.heightPx - 1, Math.ceil(yPx + reach))
  const left = Math.max(0, Math.floor(xPx - reach))
  const right = Math.min(onto.widthPx - 1, Math.ceil(xPx + reach))
  for (let row = top; row <= bottom; row++)
    for (let column = left; column <= right; column++) {
      const share = Math.min(1, Math.max(0, radiusPx + 1.5 - Math.hypot(column + 0.5 - xPx, row + 0.5 - yPx)))
      const at = (row * onto.widthPx + column) * 4
      for (let c = 0; c < 3; c++)
        onto.data[at + c] = onto.data[at + c]! * (1 - share) + from.data[at + c]! * share
    }
}

export type Part = { xPx: number; yPx: number; widthPx: number; heightPx: number }

/** A part of the picture, in whole pixels that lie inside it. */
export function cut({ widthPx, data }: Rgba, part: Part): Rgba {
  const rows = new Uint8ClampedArray(part.widthPx * part.heightPx * 4)
  for (let row = 0; row < part.heightPx; row++) {
    const from = ((part.yPx + row) * widthPx + part.xPx) * 4
    rows.set(data.subarray(from, from + part.widthPx * 4), row * part.widthPx * 4)
  }
  return { widthPx: part.widthPx, heightPx: part.heightPx, data: rows }
}
