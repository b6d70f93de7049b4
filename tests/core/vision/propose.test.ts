import { describe, expect, test } from 'vitest'
import type { PlacedSighting } from '../../../core/contract/bench.ts'
import { outlineOfSphere } from '../../../core/geometry/outline-of-sphere.ts'
import { length, scaled, unit, type Vector } from '../../../core/geometry/vector.ts'
import { proposeMark } from '../../../core/vision/propose.ts'

// A pinhole and a sphere, written out here anew: where a place on a turning ball shows.
const camera = { focalPx: 1200, xPx: 480, yPx: 270 }
const rowSeconds = 0.003 / 540
const rate = 2 * Math.PI * 35
const axis = unit([0.3, -0.5, 0.8])
const own = unit([0.9, 0.3, -0.4])

/** Rodrigues' formula on one vector. */
function turnedBy(angle: number, [x, y, z]: Vector): Vector {
  const [a, b, c] = axis
  const along = (a * x + b * y + c * z) * (1 - Math.cos(angle))
  const [k, s] = [Math.cos(angle), Math.sin(angle)]
  return [
    k * x + s * (b * z - c * y) + along * a,
    k * y + s * (c * x - a * z) + along * b,
    k * z + s * (a * y - b * x) + along * c,
  ]
}
const middleAt = (t: number): Vector => [-0.25 + 6 * t, 0.02 - 0.5 * t, 1.1]
function markAt(t: number): { xPx: number; yPx: number; height: number } {
  let yPx = camera.yPx
  let seen = { xPx: 0, yPx: 0, height: 0 }
  for (let round = 0; round < 20; round++) {
    const when = t + rowSeconds * yPx
    const u = turnedBy(rate * when, own)
    const middle = middleAt(when)
    const [x, y, z] = [middle[0] + 0.037 * u[0], middle[1] + 0.037 * u[1], middle[2] + 0.037 * u[2]]
    yPx = camera.yPx + (camera.focalPx * y) / z
    const xPx = camera.xPx + (camera.focalPx * x) / z
    seen = { xPx, yPx, height: -(u[0] * x + u[1] * y + u[2] * z) / Math.hypot(x, y, z) }
  }
  return seen
}
/** Twenty frames at 240 fps from a moment on. */
const framesFrom = (seconds: number) =>
  Array.from({ length: 20 }, (_, frame) => outlinedAt(frame, seconds + frame / 240))
function outlinedAt(frame: number, t: number) {
  let outline = { xPx: 0, yPx: 270, radiusPx: 0 }
  for (let round = 0; round < 20; round++) {
    const middle = middleAt(t + rowSeconds * outline.yPx)
    const ball = { toBall: unit(middle), distanceRadii: length(scaled(middle, 1 / 0.037)) }
    outline = outlineOfSphere(ball, camera)
  }
  return { frame, timeSeconds: t, outline }
}
const frames = framesFrom(0)
const flight = {
  reading: { rpm: 2100, axis: { x: axis[0], y: axis[1], z: axis[2], tiltDeg: 0, uncertaintyDeg: 1 } },
  frames,
  picture: { widthPx: 960, heightPx: 540 },
  readoutSeconds: 0.003,
  focalLengthPx: 1200,
}
const seenIn = frames.map(({ timeSeconds }) => markAt(timeSeconds))
const clear = seenIn.findIndex(({ height }) => height > 0.7)
const points = (all: PlacedSighting[]) => all.flatMap(one => (one.kind === 'point' ? [one] : []))

describe('a mark clicked once', () => {
  const { xPx, yPx } = seenIn[clear]!
  const proposed = proposeMark('logo', [{ frame: clear, xPx, yPx }], flight)

  test('is put where the turning ball shows it in every other frame, by a pinhole with a rolling shutter', () => {
    expect(points(proposed).length).toBeGreaterThan(6)
    for (const one of points(proposed)) {
      const there = seenIn[one.frame]!
      expect(Math.hypot(one.xPx - there.xPx, one.yPx - there.yPx)).toBeLessThan(0.1)
    }
  })

  test('is hidden where it lies behind the ball, and nowhere else', () => {
    const hidden = proposed.filter(one => one.kind === 'hidden').map(one => one.frame)
    expect(hidden.length).toBeGreaterThan(4)
    for (const frame of hidden) expect(seenIn[frame]!.height).toBeLessThan(0)
    for (const [frame, { height }] of seenIn.entries()) if (height < -0.15) expect(hidden).toContain(frame)
  })
})

test('a nudge in one frame moves the mark in the others, and stays as it was put', () => {
  const { xPx, yPx } = seenIn[clear]!
  const nudged = { frame: clear, xPx: xPx + 4, yPx }
  const before = points(proposeMark('logo', [{ frame: clear, xPx, yPx }], flight))
  const after = points(proposeMark('logo', [nudged], flight))
  expect(after.find(one => one.frame === clear)).toMatchObject({ xPx: xPx + 4, yPx })
  const other = before.find(one => one.frame !== clear)!
  const moved = after.find(one => one.frame === other.frame)!
  expect(Math.hypot(moved.xPx - other.xPx, moved.yPx - other.yPx)).toBeGreaterThan(1)
})

test('nothing is proposed outside the picture, whose edge cuts the ball', () => {
  // Its middle passes the left edge 0.032 s before the moment 0: −0.25 + 6 t = −480 · 1.1 / 1200.
  const entering = framesFrom(-0.05)
  const seen = entering.map(({ timeSeconds }) => markAt(timeSeconds))
  const from = seen.findIndex(({ height, xPx }) => height > 0.5 && xPx > 0)
  const { xPx, yPx } = seen[from]!
  const proposed = points(
    proposeMark('logo', [{ frame: from, xPx, yPx }], { ...flight, frames: entering }),
  ).map(({ frame }) => frame)
  const facing = seen.flatMap((one, frame) => (one.height > 0.2 ? [{ ...one, frame }] : []))
  const [inside, outside] = [1, -1].map(side => facing.filter(one => side * one.xPx > 1))
  expect(outside!.length).toBeGreaterThan(0)
  expect(proposed).toEqual(expect.arrayContaining(inside!.map(({ frame }) => frame)))
  for (const { frame } of outside!) expect(proposed).not.toContain(frame)
})

test('nothing is proposed without a figure, or from a frame without an outline', () => {
  const pointed = [{ frame: 3, xPx: 400, yPx: 250 }]
  expect(proposeMark('logo', pointed, { ...flight, reading: { rpm: null, axis: null } })).toEqual([])
  expect(proposeMark('logo', [{ frame: 99, xPx: 400, yPx: 250 }], flight)).toEqual([])
})
