import { expect, test } from 'vitest'
import { outlineOfSphere } from '../../../core/geometry/outline-of-sphere.ts'
import { launchAngle, spinParts } from '../../../core/geometry/spin-parts.ts'
import { length, scaled, unit, type Vector } from '../../../core/geometry/vector.ts'
import { velocityOf } from '../../../core/geometry/velocity.ts'

test('a ball whose top goes forward has topspin, whichever way it flies', () => {
  // Clockwise as the camera sees it, flying to the right: the top moves right too (method.md, words).
  expect(spinParts([0, 0, 100], [5, 0, 0])).toMatchObject({ topspin: 100 })
  expect(spinParts([0, 0, 100], [-5, 0, 0])).toMatchObject({ topspin: -100 })
})

test('counter-clockwise from above is positive sidespin, right-handed about the flight positive gyro', () => {
  // y points down, so a right-hand turn about −y is counter-clockwise for who looks down.
  const parts = spinParts([3, -4, 0], [7, 0, 0])!
  expect(parts.sidespin).toBeCloseTo(4, 12)
  expect(parts.gyro).toBeCloseTo(3, 12)
  expect(launchAngle([1, -1, 0])).toBeCloseTo(Math.PI / 4, 12)
})

test('the parts of a slanting flight hold the whole rate', () => {
  const rotation: Vector = [30, -80, 120]
  const parts = spinParts(rotation, [4, -2, 1])!
  expect(Math.hypot(parts.topspin, parts.sidespin, parts.gyro)).toBeCloseTo(length(rotation), 9)
})

test('a thrown ball’s speed comes from its size, free fall and all', () => {
  const camera = { focalPx: 1300, xPx: 480, yPx: 270 }
  const radius = 0.037
  // standard gravity, 3rd CGPM (1901)
  const outlines = Array.from({ length: 20 }, (_, i) => {
    const t = i / 240
    const place: Vector = [-0.3 + 8 * t, -1.5 * t + 0.5 * 9.80665 * t * t, 1.2 + 0.5 * t]
    const ball = { toBall: unit(place), distanceRadii: length(scaled(place, 1 / radius)) }
    return { timeSeconds: t, outline: outlineOfSphere(ball, camera) }
  })
  const { metresPerSecond } = velocityOf(outlines, camera, 2 * radius)!
  expect(metresPerSecond[0]).toBeCloseTo(8, 3)
  expect(metresPerSecond[1]).toBeCloseTo(-1.5, 3)
  expect(metresPerSecond[2]).toBeCloseTo(0.5, 3)
})
