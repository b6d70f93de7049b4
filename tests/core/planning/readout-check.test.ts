import { describe, expect, it } from 'vitest'
import { EdgeReadout } from '../../../core/planning/readout-check/edge-readout.ts'
import { lampReadout } from '../../../core/planning/readout-check/lamp-readout.ts'
import { lateRows } from '../../../core/planning/readout-check/late-rows.ts'
import { readoutCheckOf } from '../../../core/planning/readout-check/readout-check-of.ts'
import type { ReadoutFound } from '../../../core/planning/readout-check/readout-found.ts'
import { readoutFound } from '../../../core/planning/readout-check/readout-found.ts'
import { spinReadout } from '../../../core/planning/readout-check/spin-readout.ts'
import { type Camera, filmed, rowsOf } from './filmed.ts'
import { hardWave, lineOnDisc, litWall, movedBar, type Shade, softWave } from './scenes.ts'

const camera: Camera = {
  widthPx: 96,
  heightPx: 54,
  frames: 120,
  fps: 240,
  readoutSeconds: 0.003,
  exposureSeconds: 1 / 2000,
  noise: 2,
  seed: 3,
}

/** Within 5 % of the truth, and within three of its own standard uncertainties. */
function expectReadout(found: ReadoutFound, truthSeconds: number) {
  if (!found.measured) throw new Error(found.reason)
  const off = Math.abs(found.readoutSeconds - truthSeconds)
  expect(off).toBeLessThan(Math.max(0.05 * truthSeconds, 2e-5))
  expect(off).toBeLessThan(3 * found.standardUncertaintySeconds)
}

/** The slope of a straight line through points by the normal equations, written out. */
function slopeOf(points: readonly (readonly [number, number])[]): number {
  const n = points.length
  const [x, y] = [0, 1].map(k => points.reduce((sum, point) => sum + point[k]!, 0) / n) as [number, number]
  const along = points.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0)
  return along / points.reduce((sum, [a]) => sum + (a - x) ** 2, 0)
}

/** What is drawn tells the same: the points lie along a line that rises by the readout, and so does the drawn line. */
function expectDrawn(found: ReadoutFound, truthSeconds: number, secondsPerSlope: number) {
  if (!found.measured) throw new Error(found.reason)
  const { points, fit } = found.evidence
  expect(points.length).toBeGreaterThan(20)
  const [[x, y], [toX, toY]] = fit!
  for (const slope of [slopeOf(points), (toY - y) / (toX - x)])
    expect(Math.abs(slope * secondsPerSlope - truthSeconds)).toBeLessThan(0.05 * truthSeconds)
}
/** ms over hundredths of the height. */
const perHeight = 0.1

const reasonOf = (found: ReadoutFound) => (found.measured ? 'measured' : found.reason)

describe('bands of a lamp', () => {
  const look = (shade: Shade, hertz: number, more: Partial<Camera> = {}) => {
    const own = { ...camera, widthPx: 4, heightPx: 60, frames: 240, noise: 0.5, ...more }
    return lampReadout(filmed(own, shade).map(rowsOf), hertz, own.fps)
  }

  it.each([
    ['0.8 ms at 240 fps', softWave, 240, 0.0008],
    ['3 ms at 240 fps', softWave, 240, 0.003],
    ['3 ms at 240 fps, light that goes out', hardWave, 240, 0.003],
    ['5.5 ms at 120 fps, light that goes out', hardWave, 120, 0.0055],
    ['12 ms at 60 fps, light that goes out', hardWave, 60, 0.012],
  ])('of 100 flashes a second: %s', (_, wave, fps, readoutSeconds) => {
    const found = look(litWall(100, wave), 100, { fps, readoutSeconds })
    expectReadout(found, readoutSeconds)
    expectDrawn(found, readoutSeconds, perHeight)
  })

  it('the mains run 0.03 % fast', () => {
    expectReadout(look(litWall(100.03, softWave), 100), 0.003)
  })

  it('a global shutter reads 0', () => {
    const found = look(litWall(100, softWave), 100, { readoutSeconds: 0 })
    expect(found).toMatchObject({
      measured: true,
      remarks: [expect.any(String), expect.stringContaining('global')],
    })
  })

  it('bands that stand still from frame to frame are refused', () => {
    expect(reasonOf(look(litWall(120, softWave), 120, { fps: 60 }))).toContain('stand still')
    expect(reasonOf(look(litWall(120, softWave), 120))).toContain('stand still')
  })

  it('daylight and a short look are refused', () => {
    expect(
      reasonOf(
        look(
          litWall(100, () => 0.8),
          100,
        ),
      ),
    ).toContain('No bands')
    expect(reasonOf(look(litWall(100, softWave), 100, { frames: 30 }))).toContain('too few')
  })
})

describe('a line on a disc that spins', () => {
  const look = (turnsPerSecond: number, more: Partial<Camera> = {}) => {
    const own = { ...camera, ...more }
    const shade = lineOnDisc({ x: 51, y: 25, radius: 23 }, turnsPerSecond)
    const pictures = filmed(own, shade).map(picture => picture.data)
    return spinReadout(pictures, own.widthPx, own.fps)
  }

  it.each([15, -15])('%d turns a second', turnsPerSecond => {
    const found = look(turnsPerSecond)
    expectReadout(found, 0.003)
    expectDrawn(found, 0.003, perHeight)
  })

  it('too slow and too short are refused', () => {
    expect(reasonOf(look(1.3))).toMatch(/unsure|times/)
    expect(reasonOf(look(15, { frames: 40 }))).toContain('too few')
  })

  it('a wall that nothing moves on is refused', () => {
    const still = filmed(camera, () => 120).map(picture => picture.data)
    expect(reasonOf(spinReadout(still, camera.widthPx, 240))).toContain('Nothing')
  })

  it('what moves sideways does not turn', () => {
    const bar = filmed(camera, movedBar(camera, 25, 4, 0)).map(picture => picture.data)
    expect(spinReadout(bar, camera.widthPx, 240).measured).toBe(false)
  })
})

describe('an edge that is moved', () => {
  const look = (shade: Shade, more: Partial<Camera> = {}) => {
    const edge = new EdgeReadout({ ...camera, ...more }.fps)
    for (const picture of filmed({ ...camera, ...more }, shade)) edge.see(picture)
    return edge.found()
  }

  it('leaning by 4 px of itself', () => {
    const found = look(movedBar(camera, 26, 3, 4))
    expectReadout(found, 0.003)
    // px of lean over px a frame are frames.
    expectDrawn(found, 0.003, 1 / camera.fps)
  })

  it('a global shutter reads 0', () => {
    expectReadout(look(movedBar(camera, 26, 3, 4), { readoutSeconds: 0 }), 0)
  })

  it('one way alone cannot tell its own slant from the readout’s', () => {
    const oneWay: Shade = (x, y, t) => (x > 20 + 130 * t + y / 10 ? 40 : 190)
    expect(reasonOf(look(oneWay, { frames: 90 }))).toContain('one way')
  })

  it('a picture without an edge is refused', () => {
    expect(reasonOf(look(() => 120, { frames: 20 }))).toContain('0 places')
  })
})

describe('what a check says', () => {
  it('a ball that falls through 2.5 heights a second reads 1 % off with 4 ms left out', () => {
    // rows a second · readout / rows: the factor in the method's "time of a frame", point 3.
    const { rpmEffect } = readoutCheckOf(
      'spin',
      240,
      readoutFound(0.004, 0.0001, [], lateRows([], 0.004), ''),
    )
    expect(rpmEffect.uncorrectedRelative).toBeCloseTo(0.01, 9)
    expect(rpmEffect.leftRelative).toBeCloseTo(0.00025, 5)
  })

  it('a picture that was filmed upside down is refused', () => {
    expect(reasonOf(readoutFound(-0.004, 0.0001, [], lateRows([], -0.004), ''))).toContain(
      'before the topmost',
    )
  })

  it('nothing measured is a problem with reason and way out', () => {
    expect(() =>
      readoutCheckOf('edge', 240, { measured: false, reason: 'No edge.', tip: 'Move it.' }),
    ).toThrow('No edge.')
  })
})
