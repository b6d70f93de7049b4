import { expect, test } from 'vitest'
import { smoothPath } from '../../../core/geometry/smooth-path.ts'
import { chanceOf } from '../../bench/simulate/random.ts'

const times = (n: number) => Array.from({ length: n }, (_, i) => i / 240)
/** A ball under standard gravity (9.80665 m/s², 3rd CGPM, 1901), 500 px a metre. */
const flight = (n: number) =>
  times(n).map(t => ({
    xPx: 100 + 4000 * t,
    yPx: 300 - 900 * t + 250 * 9.80665 * t * t,
    // Away from the middle of the picture it looks larger.
    radiusPx: 36 + 2 * t + 90 * t * t,
  }))

test('outlines that lie on a flight’s path stay where they are', () => {
  for (const n of [5, 12, 40]) {
    const path = smoothPath(times(n), flight(n))!
    path.outlines.forEach((outline, i) => {
      expect(outline.xPx).toBeCloseTo(flight(n)[i]!.xPx, 6)
      expect(outline.yPx).toBeCloseTo(flight(n)[i]!.yPx, 6)
      expect(outline.radiusPx).toBeCloseTo(flight(n)[i]!.radiusPx, 6)
    })
    expect(path.scatterPx).toBeLessThan(1e-6)
  }
})

test('errors of single outlines are taken out, all but the share p/n of their variance that a path with p powers has', () => {
  const { normal } = chanceOf(5)
  const n = 24
  let squares = 0
  let scatter = 0
  const hits = 200
  for (let hit = 0; hit < hits; hit++) {
    const given = flight(n).map(o => ({ ...o, xPx: o.xPx + normal(1), yPx: o.yPx + normal(1) }))
    const path = smoothPath(times(n), given)!
    path.outlines.forEach((o, i) => {
      squares += (o.xPx - flight(n)[i]!.xPx) ** 2 / (n * hits)
    })
    scatter += path.scatterPx ** 2 / hits
  }
  // Least squares: the mean variance of fitted values is σ²p/n (the trace of the hat matrix is p).
  expect(squares / (3 / n)).toBeGreaterThan(0.85)
  expect(squares / (3 / n)).toBeLessThan(1.15)
  expect(scatter).toBeCloseTo(1, 1)
})

test('a path that turns at a contact scatters far beyond clicks, and four outlines make no path', () => {
  const kinked = flight(20).map((o, i) => ({ ...o, xPx: o.xPx - Math.max(i - 10, 0) * 30 }))
  expect(smoothPath(times(20), kinked)!.scatterPx).toBeGreaterThan(5)
  expect(smoothPath(times(4), flight(4))).toBeNull()
})
