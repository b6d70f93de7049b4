import { describe, expect, it } from 'vitest'
import { focalFromAngle, focalFromBall, focalFromWidth } from '../../../core/planning/focal-length.ts'
import { chanceOf } from '../../bench/simulate/random.ts'

const ball = {
  widthPx: 1920,
  diameterPx: 62,
  diameterUncertaintyPx: 0.8,
  diameterMetres: 0.0742,
  diameterUncertaintyMetres: 0.0007,
  distanceMetres: 2,
  distanceUncertaintyMetres: 0.02,
}

describe('a focal length', () => {
  it('from a ball: similar triangles far away, 62 px · 2 m / 74.2 mm = 1671 px', () => {
    expect(focalFromBall(ball).focalLengthPx / ((62 * 2) / 0.0742)).toBeCloseTo(1, 3)
  })

  it('its uncertainty is the scatter of many draws (JCGM 101:2008, 7)', () => {
    const chance = chanceOf(4)
    const drawn = Array.from(
      { length: 4000 },
      () =>
        focalFromBall({
          ...ball,
          diameterPx: ball.diameterPx + chance.normal(0.8),
          diameterMetres: ball.diameterMetres + chance.normal(0.0007),
          distanceMetres: ball.distanceMetres + chance.normal(0.02),
        }).focalLengthPx,
    )
    const mean = drawn.reduce((a, b) => a + b) / drawn.length
    const sd = Math.sqrt(drawn.reduce((sum, f) => sum + (f - mean) ** 2, 0) / (drawn.length - 1))
    expect(focalFromBall(ball).standardUncertaintyPx / sd).toBeGreaterThan(0.95)
    expect(focalFromBall(ball).standardUncertaintyPx / sd).toBeLessThan(1.05)
  })

  it('from an angle, with its uncertainty by a numeric slope', () => {
    const at = (acrossDeg: number) =>
      focalFromAngle({ widthPx: 1920, acrossDeg, uncertaintyDeg: 0.5 }).focalLengthPx
    const found = focalFromAngle({ widthPx: 1920, acrossDeg: 65, uncertaintyDeg: 0.5 })
    expect(found.acrossDeg).toBeCloseTo(65, 9)
    expect(found.standardUncertaintyPx).toBeCloseTo(Math.abs(at(65.25) - at(64.75)), 1)
  })

  it('from a width: 3 m across at 2 m', () => {
    const found = focalFromWidth({
      widthPx: 1920,
      widthMetres: 3,
      widthUncertaintyMetres: 0.03,
      distanceMetres: 2,
      distanceUncertaintyMetres: 0,
    })
    expect(found.focalLengthPx).toBeCloseTo(1280, 9)
    expect(found.standardUncertaintyPx).toBeCloseTo(12.8, 9)
    expect(found.acrossDeg).toBeCloseTo(73.74, 2)
  })

  it.each([
    ['a distance in millimetres', { distanceMetres: 2000 }, 'field of view'],
    ['a ball before the lens', { distanceMetres: 0.1 }, 'two of its diameters'],
    ['a ball wider than the picture', { diameterPx: 2000 }, 'does not fit'],
    ['a ball that is hardly seen', { diameterUncertaintyPx: 25 }, 'known to'],
  ])('%s is refused', (_, wrong, words) => {
    expect(() => focalFromBall({ ...ball, ...wrong })).toThrow(words)
  })
})
