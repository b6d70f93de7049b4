import { describe, expect, it } from 'vitest'
import { bearingDegOf } from '../../../core/picture/bearing-of.ts'
import { alikes, onDial } from '../../../renderer/screens/bench/stage/dial-geometry.ts'

/** Bearings as the project states them: 0 to the right, growing clockwise on a screen whose y runs down. */
describe('bearings on the dial', () => {
  it.each([
    [0, 1, 0],
    [90, 0, 1],
    [180, -1, 0],
    [270, 0, -1],
  ])('%d° lies at (%d, %d)', (deg, dx, dy) => {
    const at = onDial({ x: 100, y: 50 }, 20, deg)
    expect(at.x).toBeCloseTo(100 + 20 * dx, 9)
    expect(at.y).toBeCloseTo(50 + 20 * dy, 9)
    expect(bearingDegOf(dx, dy)).toBeCloseTo(deg, 9)
  })

  it('of a mark that looks the same three times a turn stand 120° apart', () => {
    expect(alikes(10, 3)).toEqual([10, 130, 250])
  })
})
