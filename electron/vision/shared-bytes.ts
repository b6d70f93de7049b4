import type { Crop } from '../media/media.ts'

/** A copy in memory that workers look at in place: handing it over costs nothing, and it can be done again. */
export function sharedBytes(data: Uint8Array): Uint8Array<SharedArrayBuffer> {
  const shared = new Uint8Array(new SharedArrayBuffer(data.length))
  shared.set(data)
  return shared
}

/** As `sharedBytes`, of a part of a picture that shows `whole` alone. */
export function sharedPart(data: Uint8Array, whole: Crop, part: Crop): Uint8Array<SharedArrayBuffer> {
  const shared = new Uint8Array(new SharedArrayBuffer(part.widthPx * part.heightPx))
  const first = (part.yPx - whole.yPx) * whole.widthPx + part.xPx - whole.xPx
  for (let row = 0; row < part.heightPx; row++) {
    const from = first + row * whole.widthPx
    shared.set(data.subarray(from, from + part.widthPx), row * part.widthPx)
  }
  return shared
}
