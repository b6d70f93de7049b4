import { createRequire } from 'node:module'
import { median } from 'simple-statistics'
import { describe, expect, test } from 'vitest'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { backgroundOf, noiseOf } from '../../../core/vision/find/background.ts'
import { componentsOf, movedMaskOf } from '../../../core/vision/find/blobs.ts'
import { shiftOf } from '../../../core/vision/find/shift.ts'
import type { Luma } from '../../../core/vision/luma.ts'

const { cv } = createRequire(import.meta.url)('opencv-wasm')

const [widthPx, heightPx] = [120, 90]
const still = { x: 0, y: 0, gain: 1 }
const lumaOf = (codeAt: (x: number, y: number) => number, size = { widthPx, heightPx }): Luma => ({
  xPx: 0,
  yPx: 0,
  ...size,
  data: Float32Array.from({ length: size.widthPx * size.heightPx }, (_, at) =>
    codeAt((at % size.widthPx) + 0.5, Math.floor(at / size.widthPx) + 0.5),
  ),
})
/** A wall of soft spots: its brightness at any place is known, between pixels too. */
const wallAt = (x: number, y: number) => 120 + 30 * Math.sin(x / 3) * Math.cos(y / 4) + 20 * Math.sin(y / 7)

describe('what moved in a picture', () => {
  test('is in connected parts as OpenCV parts them', () => {
    // Reference: OpenCV's connectedComponentsWithStats, eight neighbours (the build in opencv-wasm 4.3).
    const random = seededRandom(4)
    for (const share of [0.02, 0.3, 0.5]) {
      const mask = Uint8Array.from({ length: widthPx * heightPx }, () => (random() < share ? 1 : 0))
      const [picture, labels, stats, centres] = [
        cv.matFromArray(heightPx, widthPx, cv.CV_8UC1, [...mask]),
        new cv.Mat(),
        new cv.Mat(),
        new cv.Mat(),
      ]
      const count = cv.connectedComponentsWithStats(picture, labels, stats, centres, 8, cv.CV_32S)
      const expected = Array.from({ length: count - 1 }, (_, i) => {
        const [, , width, height, area] = stats.intPtr(i + 1)
        const [x, y] = centres.doublePtr(i + 1)
        return [area, width, height, x + 0.5, y + 0.5].map(value => value.toFixed(6)).join(' ')
      })
      for (const mat of [picture, labels, stats, centres]) mat.delete()
      const found = componentsOf(mask, widthPx).map(blob =>
        [blob.areaPx, blob.widthPx, blob.heightPx, blob.xPx, blob.yPx].map(v => v.toFixed(6)).join(' '),
      )
      expect(found.length).toBeGreaterThan(10)
      expect(found.sort()).toEqual(expected.sort())
    }
  })

  test('is marked where at least four of nine pixels differ by more than the threshold', () => {
    const random = seededRandom(9)
    const background = lumaOf(() => 100)
    const movedMask = movedMaskOf(background)
    // From lone pixels to crowded ones, in pictures one after the other: nothing stays of the one before.
    for (const share of [0.5, 0.01, 0.15]) {
      const frame = lumaOf(() => (random() < share ? 100 + (random() < 0.5 ? -8 : 8) : 106.9))
      const mask = movedMask(frame, background, still, 7)
      const differs = (x: number, y: number) =>
        x > 0 &&
        y > 0 &&
        x < widthPx - 1 &&
        y < heightPx - 1 &&
        Math.abs(frame.data[y * widthPx + x]! - 100) > 7
      let marked = 0
      for (let y = 0; y < heightPx; y++)
        for (let x = 0; x < widthPx; x++) {
          let around = 0
          for (const dy of [-1, 0, 1]) for (const dx of [-1, 0, 1]) if (differs(x + dx, y + dy)) around++
          const inside = x > 0 && y > 0 && x < widthPx - 1 && y < heightPx - 1
          const expected = inside && around >= 4 ? 1 : 0
          // Where hardly anything differs, two rows apart with nothing in the one between may stay unseen.
          if (share > 0.05) expect(mask[y * widthPx + x]).toBe(expected)
          else expect(mask[y * widthPx + x]!).toBeLessThanOrEqual(expected)
          marked += expected
        }
      expect(marked).toBeGreaterThan(share > 0.05 ? 100 : -1)
    }
  })

  test('is not what a camera that shook shows elsewhere, nor what a lamp made brighter', () => {
    const background = lumaOf(wallAt)
    const movedMask = movedMaskOf(background)
    for (const [x, y] of [
      [3, -2],
      [-2, 3],
      [0, 0],
    ] as const) {
      const frame = lumaOf((u, v) => 1.1 * wallAt(u - x, v - y))
      expect(movedMask(frame, background, { x, y, gain: 1.1 }, 7).includes(1)).toBe(false)
    }
    const ball = lumaOf((u, v) => (Math.hypot(u - 60, v - 40) < 9 ? 230 : wallAt(u - 3, v + 2)))
    const [blob] = componentsOf(movedMask(ball, background, { x: 3, y: -2, gain: 1 }, 7), widthPx)
    expect(blob!.xPx).toBeCloseTo(60, 0)
    expect(blob!.areaPx / (Math.PI * 81)).toBeCloseTo(1, 1)
  })
})

describe('the shift of a picture against its background', () => {
  test.each([
    [0, 0],
    [0.4, -0.3],
    [-0.75, 0.6],
    [1.2, 0.9],
  ])('(%d, %d) px is found to a few hundredths, with the lamp’s gain', (x, y) => {
    const background = lumaOf(wallAt)
    const frame = lumaOf((u, v) => 1.06 * wallAt(u - x, v - y))
    const shift = shiftOf(frame, background, null)
    expect(Math.hypot(shift.x - x, shift.y - y)).toBeLessThan(0.05)
    expect(shift.gain).toBeCloseTo(1.06, 2)
  })

  test('is that of the wall, whatever the ball before it does', () => {
    const ball = { xPx: 60, yPx: 45, radiusPx: 20 }
    const frame = lumaOf((u, v) =>
      Math.hypot(u - 60, v - 45) < 20 ? wallAt(u + 3, v) : wallAt(u - 0.5, v - 0.25),
    )
    const shift = shiftOf(frame, lumaOf(wallAt), ball)
    expect(Math.hypot(shift.x - 0.5, shift.y - 0.25)).toBeLessThan(0.05)
  })

  test('is none before a plain wall', () => {
    const random = seededRandom(2)
    const shift = shiftOf(
      lumaOf(() => 100 + random()),
      lumaOf(() => 100 + random()),
      null,
    )
    expect(Math.hypot(shift.x, shift.y)).toBeLessThan(0.1)
  })
})

describe('noise and background', () => {
  test('the noise is the standard deviation of what differs, but no less than asked for', () => {
    const random = seededRandom(7)
    // Box and Muller, Annals of Mathematical Statistics 29 (1958) 610.
    const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
    const background = lumaOf(() => 100)
    for (const [deviation, least, expected] of [
      [3, 1.4, 3],
      [0.2, 1.4, 1.4],
    ] as const) {
      const frame = lumaOf(() => 90 + deviation * normal())
      expect(Math.abs(noiseOf(frame, background, 0.9, least) / expected - 1)).toBeLessThan(0.05)
    }
  })

  test('the background is the wall that a ball passes before', () => {
    const size = { widthPx: 60, heightPx: 30 }
    const frames = Array.from({ length: 20 }, (_, i) =>
      lumaOf((x, y) => (Math.hypot(x - 3 * i, y - 15) < 6 ? 250 : wallAt(x, y)), size),
    )
    expect(backgroundOf(frames)!.data).toEqual(lumaOf(wallAt, size).data)
    expect(backgroundOf(frames.slice(0, 2))).toBeNull()
  })

  test.each([3, 4, 15, 40])('the background of %d pictures of 8 bits is the median of those taken', count => {
    // Reference: simple-statistics' median. Of more than fifteen, fifteen are taken: each the middle of its share.
    const random = seededRandom(count)
    const size = { widthPx: 40, heightPx: 30 }
    const frames = Array.from({ length: count }, () => {
      const code = () => (random() < 0.1 ? 255 * random() : 90 + 20 * random())
      return { ...lumaOf(() => 0, size), data: Uint8Array.from({ length: 1200 }, code) }
    })
    const taken =
      count <= 15
        ? frames
        : frames.filter((_, i) => [...Array(15)].some((_, k) => i === Math.floor(((k + 0.5) * count) / 15)))
    const { data } = backgroundOf(frames)!
    for (let at = 0; at < data.length; at++) expect(data[at]).toBe(median(taken.map(one => one.data[at]!)))
  })
})
