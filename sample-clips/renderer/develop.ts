import type { Random } from './random.ts'
import type { Region } from './region.ts'
import type { Camera } from './scene.ts'

/** Power law between linear light and code values. */
const GAMMA = 2.2

const CURVE = 4096
/** Code value 0…1 over the square root of linear light, which spaces the dark steps well. */
const curve = Float32Array.from({ length: CURVE + 1 }, (_, i) => ((i / CURVE) ** 2) ** (1 / GAMMA))
const coded = (linear: number) => curve[(Math.sqrt(Math.min(linear, 1)) * CURVE + 0.5) | 0]!

/** Planes of Y′CbCr 4:2:0 in 8-bit code values, not yet rounded; BT.709, limited range. */
export type Planes = {
  widthPx: number
  heightPx: number
  y: Float32Array
  cb: Float32Array
  cr: Float32Array
}

export const emptyPlanes = (widthPx: number, heightPx: number): Planes => ({
  widthPx,
  heightPx,
  y: new Float32Array(widthPx * heightPx),
  cb: new Float32Array((widthPx * heightPx) / 4),
  cr: new Float32Array((widthPx * heightPx) / 4),
})

/** Linear RGB (rows of `strideCells`) within an even region into the planes. */
export function toPlanes(rgb: Float32Array, region: Region, planes: Planes): void {
  const width = planes.widthPx
  for (let row = region.top; row < region.bottom; row += 2)
    for (let column = region.left; column < region.right; column += 2) {
      let cb = 0
      let cr = 0
      for (let look = 0; look < 4; look++) {
        const at = (row + (look >> 1)) * width + column + (look & 1)
        const r = coded(rgb[at * 3]!)
        const g = coded(rgb[at * 3 + 1]!)
        const b = coded(rgb[at * 3 + 2]!)
        const luma = 0.2126 * r + 0.7152 * g + 0.0722 * b
        planes.y[at] = 16 + 219 * luma
        cb += (b - luma) / 1.8556
        cr += (r - luma) / 1.5748
      }
      const at = (row >> 1) * (width >> 1) + (column >> 1)
      planes.cb[at] = 128 + 56 * cb
      planes.cr[at] = 128 + 56 * cr
    }
}

/** Standard deviation of luma noise in code values over the luma code value. */
function noiseCurve({ fullWell, readNoiseElectrons }: Camera): Float32Array {
  return Float32Array.from({ length: 256 }, (_, luma) => {
    if (fullWell === 0) return 0
    const code = Math.max(0.06, (luma - 16) / 219)
    const linear = code ** GAMMA
    const sd = Math.sqrt(linear * fullWell + readNoiseElectrons ** 2) / fullWell
    return (219 * sd * code) / (GAMMA * linear)
  })
}

export type Developer = (planes: Planes, gainOfRow: (row: number) => number) => Uint8Array<ArrayBuffer>

/**
 * Rounds planes to a yuv420p frame with the sensor's noise: shot noise grows with the root of the light,
 * chroma gets half as much. Noise is drawn from a long strip that each row enters elsewhere.
 */
export function makeDeveloper(camera: Camera, random: Random): Developer {
  const sd = noiseCurve(camera)
  const STRIP = 1 << 17
  const strip = Float32Array.from({ length: STRIP + 8192 }, () => random.gauss())
  return (planes, gainOfRow) => {
    const { widthPx, heightPx } = planes
    // Stores rounded to the nearest and held within 0…255.
    const out = new Uint8ClampedArray((widthPx * heightPx * 3) / 2)
    for (let row = 0; row < heightPx; row++) {
      const gain = gainOfRow(row) ** (1 / GAMMA)
      const enter = (random.next() * STRIP) | 0
      for (let column = 0; column < widthPx; column++) {
        const at = row * widthPx + column
        const luma = 16 + (planes.y[at]! - 16) * gain
        out[at] = luma + sd[luma & 255]! * strip[enter + column]!
      }
    }
    const half = widthPx >> 1
    let to = widthPx * heightPx
    for (const plane of [planes.cb, planes.cr])
      for (let row = 0; row < heightPx >> 1; row++) {
        const gain = gainOfRow(row * 2) ** (1 / GAMMA)
        const enter = (random.next() * STRIP) | 0
        for (let column = 0; column < half; column++) {
          const luma = planes.y[row * 2 * widthPx + column * 2]!
          const chroma = 128 + (plane[row * half + column]! - 128) * gain
          out[to++] = chroma + 0.5 * sd[luma & 255]! * strip[enter + column]!
        }
      }
    return new Uint8Array(out.buffer)
  }
}
