import type { FramePicture } from '../contract/calls.ts'

/** Weights of red and blue in luma (ITU-R BT.709-6, 3.2). */
const red = 0.2126
const blue = 0.0722
const green = 1 - red - blue
/** Video range to full range: luma 16–235, chroma 16–240 (ITU-R BT.709-6, 4.6). */
const luma = 255 / 219
const chroma = 255 / 224

/**
 * Planar YUV 4:2:0 of video range, BT.709, to RGBA: for pages whose browser has no converter of its own.
 * Chroma is taken from the nearest sample; the eye judges luma here.
 */
export function i420ToRgba(picture: FramePicture): Uint8ClampedArray<ArrayBuffer> {
  const { widthPx: width, heightPx: height, data } = picture
  const uStart = width * height
  const vStart = uStart + (width / 2) * (height / 2)
  const rgba = new Uint8ClampedArray(width * height * 4)
  for (let row = 0, out = 0; row < height; row++) {
    const chromaRow = (row >> 1) * (width / 2)
    for (let column = 0; column < width; column++, out += 4) {
      const y = (data[row * width + column]! - 16) * luma
      const u = (data[uStart + chromaRow + (column >> 1)]! - 128) * chroma
      const v = (data[vStart + chromaRow + (column >> 1)]! - 128) * chroma
      rgba[out] = y + 2 * (1 - red) * v
      rgba[out + 1] = y - ((2 * (1 - blue) * blue) / green) * u - ((2 * (1 - red) * red) / green) * v
      rgba[out + 2] = y + 2 * (1 - blue) * u
      rgba[out + 3] = 255
    }
  }
  return rgba
}
