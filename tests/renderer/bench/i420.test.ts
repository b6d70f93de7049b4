import { describe, expect, it } from 'vitest'
import { i420ToRgba } from '../../../core/picture/i420.ts'

/**
 * 100 % colour bars in 8-bit video range: luma and chroma as ITU-R BT.709-6 (items 3.2, 3.3 and 4.6) gives
 * them for the pure colours, rounded to whole codes (values from memory, and they follow from the weights).
 */
const bars = [
  ['white', [235, 128, 128], [255, 255, 255]],
  ['yellow', [219, 16, 138], [255, 255, 0]],
  ['cyan', [188, 154, 16], [0, 255, 255]],
  ['green', [173, 42, 26], [0, 255, 0]],
  ['magenta', [78, 214, 230], [255, 0, 255]],
  ['red', [63, 102, 240], [255, 0, 0]],
  ['blue', [32, 240, 118], [0, 0, 255]],
  ['black', [16, 128, 128], [0, 0, 0]],
] as const

describe('I420 without the browser’s converter', () => {
  it.each(bars)('shows the %s bar', (_name, [y, u, v], colour) => {
    const data = new Uint8Array([y, y, y, y, u, v])
    const rgba = i420ToRgba({ widthPx: 2, heightPx: 2, data })
    for (let pixel = 0; pixel < 4; pixel++) {
      colour.forEach((value, channel) => {
        // Whole codes of chroma stand for up to 2 steps of colour.
        expect(Math.abs(rgba[4 * pixel + channel]! - value)).toBeLessThanOrEqual(2)
      })
      expect(rgba[4 * pixel + 3]).toBe(255)
    }
  })

  it('takes each chroma sample for its own four pixels', () => {
    const luma = new Array(16).fill(63)
    const data = new Uint8Array([...luma, 102, 128, 128, 128, 240, 128, 128, 128])
    const rgba = i420ToRgba({ widthPx: 4, heightPx: 4, data })
    const red = (x: number, y: number) => rgba[4 * (y * 4 + x)]!
    expect(red(1, 1)).toBeGreaterThan(250)
    expect(red(2, 1)).toBeLessThan(70)
    expect(red(1, 2)).toBeLessThan(70)
  })
})
