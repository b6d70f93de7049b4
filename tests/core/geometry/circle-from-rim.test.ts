import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circleFromRim } from '../../../core/geometry/circle-from-rim.ts'

const at = (xPx: number, yPx: number) => ({ xPx, yPx })

describe('the circle through three rim points', () => {
  it('of a 3-4-5 triangle has the radius abc / 4K = 60 / 24 (Euclid, Elements IV.5 and III.31)', () => {
    expect(circleFromRim(at(0, 0), at(4, 0), at(0, 3)).circle).toEqual({ xPx: 2, yPx: 1.5, radiusPx: 2.5 })
  })

  it('is found from any three spread points of any ball', () => {
    const size = fc.double({ min: 4, max: 400, noNaN: true })
    const place = fc.double({ min: -2000, max: 2000, noNaN: true })
    const start = fc.double({ min: 0, max: 7, noNaN: true })
    const step = fc.double({ min: 0.4, max: 2, noNaN: true })
    fc.assert(
      fc.property(place, place, size, start, step, step, (x, y, radiusPx, start, step1, step2) => {
        const rim = (angle: number) => at(x + radiusPx * Math.cos(angle), y + radiusPx * Math.sin(angle))
        const { circle } = circleFromRim(rim(start), rim(start + step1), rim(start + step1 + step2))
        expect(circle?.xPx).toBeCloseTo(x, 6)
        expect(circle?.yPx).toBeCloseTo(y, 6)
        expect(circle?.radiusPx).toBeCloseTo(radiusPx, 6)
      }),
    )
  })

  it.each([
    ['points on a line', at(0, 0), at(5, 5), at(20, 20)],
    ['points that only just bend', at(0, 0), at(50, 0.1), at(100, 0)],
    ['two points in one place', at(3, 4), at(3, 4), at(9, 1)],
    ['three points in one place', at(3, 4), at(3, 4), at(3, 4)],
    ['a point that is no number', at(Number.NaN, 0), at(5, 5), at(20, 0)],
  ])('is no circle, with the reason, for %s', (_case, a, b, c) => {
    const found = circleFromRim(a, b, c)
    expect(found.circle).toBeNull()
    expect(found.reason).toMatch(/spread them/)
  })
})
