import type { FramePicture } from '../../core/contract/calls.ts'
import type { Rect } from '../../core/picture/clip-layout.ts'

/** A picture to be drawn into: planar YUV 4:2:0, BT.709, video range; sizes even. */
export type Canvas = { widthPx: number; heightPx: number; data: Uint8Array }

const black = 16
const grey = 128

export function blankCanvas(widthPx: number, heightPx: number): Canvas {
  const data = new Uint8Array((widthPx * heightPx * 3) / 2)
  data.fill(black, 0, widthPx * heightPx).fill(grey, widthPx * heightPx)
  return { widthPx, heightPx, data }
}

/** Draws the part `from` of a picture (its px, may be parts of one) into `to` (even px), bilinearly. */
export function drawPart(canvas: Canvas, picture: FramePicture, from: Rect, to: Rect): void {
  const whole = canvas.widthPx * canvas.heightPx
  const given = picture.widthPx * picture.heightPx
  const luma = { stride: canvas.widthPx, start: 0 }
  scalePlane(
    canvas.data,
    luma,
    picture.data,
    { stride: picture.widthPx, rows: picture.heightPx, start: 0 },
    from,
    to,
  )
  const half = (rect: Rect): Rect => ({
    x: rect.x / 2,
    y: rect.y / 2,
    width: rect.width / 2,
    height: rect.height / 2,
  })
  for (const plane of [0, 1])
    scalePlane(
      canvas.data,
      { stride: canvas.widthPx / 2, start: whole + (plane * whole) / 4 },
      picture.data,
      { stride: picture.widthPx / 2, rows: picture.heightPx / 2, start: given + (plane * given) / 4 },
      half(from),
      half(to),
    )
}

type Plane = { stride: number; start: number }

function scalePlane(
  out: Uint8Array,
  into: Plane,
  data: Uint8Array,
  source: Plane & { rows: number },
  from: Rect,
  to: Rect,
): void {
  const [left, share] = taps(from.x, from.width, to.width, source.stride)
  const [top, part] = taps(from.y, from.height, to.height, source.rows)
  const isCopy =
    from.width === to.width &&
    from.height === to.height &&
    Number.isInteger(from.x) &&
    Number.isInteger(from.y)
  for (let row = 0; row < to.height; row++) {
    const above = source.start + top[row]! * source.stride
    const start = into.start + (to.y + row) * into.stride + to.x
    if (isCopy) {
      out.set(data.subarray(above + left[0]!, above + left[0]! + to.width), start)
      continue
    }
    const below = top[row]! + 1 < source.rows ? above + source.stride : above
    const v = part[row]!
    for (let column = 0; column < to.width; column++) {
      const x = left[column]!
      const next = x + 1 < source.stride ? x + 1 : x
      const u = share[column]!
      const upper = data[above + x]! * (256 - u) + data[above + next]! * u
      const lower = data[below + x]! * (256 - u) + data[below + next]! * u
      out[start + column] = (upper * (256 - v) + lower * v + 32768) >> 16
    }
  }
}

/** Left neighbour and share of the right one, in 256ths, for each px along one side; pixel middles meet. */
function taps(from: number, length: number, count: number, size: number): [Int32Array, Int32Array] {
  const at = new Int32Array(count)
  const share = new Int32Array(count)
  for (let i = 0; i < count; i++) {
    const place = Math.min(Math.max(from + ((i + 0.5) * length) / count - 0.5, 0), size - 1)
    at[i] = Math.floor(place)
    share[i] = Math.round((place - at[i]!) * 256)
  }
  return [at, share]
}

export type Layer = { widthPx: number; heightPx: number; data: Uint8Array }

/**
 * Lays RGBA (colours multiplied by their opacity) over the canvas with its top left at (x, y).
 * Weights of red and blue, and video range: ITU-R BT.709-6, 3.2 and 4.6.
 */
export function lay(canvas: Canvas, layer: Layer, x: number, y: number): void {
  const { widthPx, heightPx, data } = canvas
  const [fromY, toY] = [Math.max(0, y), Math.min(heightPx, y + layer.heightPx)]
  const [fromX, toX] = [Math.max(0, x), Math.min(widthPx, x + layer.widthPx)]
  for (let cy = fromY; cy < toY; cy++)
    for (let cx = fromX, at = ((cy - y) * layer.widthPx + fromX - x) * 4; cx < toX; cx++, at += 4) {
      const alpha = layer.data[at + 3]!
      if (alpha === 0) continue
      const luma = cy * widthPx + cx
      const light = 0.2126 * layer.data[at]! + 0.7152 * layer.data[at + 1]! + 0.0722 * layer.data[at + 2]!
      data[luma] = data[luma]! * (1 - alpha / 255) + (black * alpha + 219 * light) / 255 + 0.5
    }
  for (let cy = fromY & ~1; cy < toY; cy += 2)
    for (let cx = fromX & ~1; cx < toX; cx += 2) layColour(canvas, layer, x, y, cx, cy)
}

/** One sample of colour stands for four px: it takes the mean of what lies over them. */
function layColour(canvas: Canvas, layer: Layer, x: number, y: number, cx: number, cy: number): void {
  let [r, g, b, alpha] = [0, 0, 0, 0]
  for (let k = 0; k < 4; k++) {
    const [column, row] = [cx + (k & 1) - x, cy + (k >> 1) - y]
    if (column < 0 || row < 0 || column >= layer.widthPx || row >= layer.heightPx) continue
    const at = (row * layer.widthPx + column) * 4
    r += layer.data[at]!
    g += layer.data[at + 1]!
    b += layer.data[at + 2]!
    alpha += layer.data[at + 3]!
  }
  if (alpha === 0) return
  const { widthPx, heightPx, data } = canvas
  const whole = widthPx * heightPx
  const blue = whole + (cy >> 1) * (widthPx >> 1) + (cx >> 1)
  const red = blue + whole / 4
  const light = 0.2126 * r + 0.7152 * g + 0.0722 * b
  const share = alpha / 1020
  data[blue] = data[blue]! * (1 - share) + grey * share + ((b - light) / 1.8556) * (224 / 1020) + 0.5
  data[red] = data[red]! * (1 - share) + grey * share + ((r - light) / 1.5748) * (224 / 1020) + 0.5
}
