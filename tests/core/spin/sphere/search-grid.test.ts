import { describe, expect, it } from 'vitest'
import { length, type Vector } from '../../../../core/geometry/vector.ts'
import { halfSphereGrid } from '../../../../core/spin/sphere/axis-grid.ts'
import { basinsOf, type Found, rateGrid } from '../../../../core/spin/sphere/basins.ts'
import { equipmentOf } from '../../../../core/spin/sphere/equipment.ts'
import { sightsOf } from '../../../../core/spin/sphere/sights.ts'
import { chanceOf } from '../../../bench/simulate/random.ts'
import { observationsWith } from '../facts.ts'

describe('axes that are tried', () => {
  it.each([20, 100, 500])('%i of them cover half a sphere to within 1.9/√n, each once', count => {
    const grid = halfSphereGrid(count)
    expect(grid).toHaveLength(count)
    for (const axis of grid) {
      expect(length(axis)).toBeCloseTo(1, 12)
      expect(axis[2]).toBeGreaterThan(0)
    }
    const { between } = chanceOf(3)
    for (let n = 0; n < 400; n++) {
      // Even over the sphere: z is (Archimedes).
      const [z, around] = [between(0, 1), between(0, 2 * Math.PI)]
      const across = Math.sqrt(1 - z * z)
      const to: Vector = [across * Math.cos(around), across * Math.sin(around), z]
      const nearest = Math.max(
        ...grid.map(axis => Math.abs(axis[0] * to[0] + axis[1] * to[1] + axis[2] * to[2])),
      )
      expect(Math.acos(Math.min(nearest, 1))).toBeLessThan(1.9 / Math.sqrt(count))
    }
    // Evenly: as many above 60° from the picture's plane as half the height is.
    expect(grid.filter(axis => axis[2] > 0.5).length / count).toBeCloseTo(0.5, 1)
  })
})

describe('rates that are tried', () => {
  it('stand an eighth of a repeat apart over the ends of the hit, to one beyond the largest', () => {
    const o = observationsWith({ marks: [{ id: 'star', symmetryOrder: 3 }] })
    const { step, count } = rateGrid(sightsOf(o), 500)
    // The ends, half a span of 23/240 s off the middle, turn by an eighth of a third turn more.
    expect((step * 23) / 480).toBeCloseTo((2 * Math.PI) / 3 / 8, 9)
    expect(count * step).toBeGreaterThan(500)
    expect((count - 2) * step).toBeLessThan(500)
  })
})

describe('basins', () => {
  const z: Vector = [0, 0, 1]
  const leant = (deg: number): Vector => [Math.sin((deg * Math.PI) / 180), 0, Math.cos((deg * Math.PI) / 180)]
  const at = (rate: number, score: number, axis = z): Found => ({ axis, rate, score })
  const rates = (found: Found[], most = 9, worst = (_: number) => 99) =>
    basinsOf(found, 0.1, most, worst).map(one => one.rate)
  // Over half of 0.1 s, 0.6 rad are 12 rad/s.
  it('are told apart by 0.6 rad at the ends of the hit; of one the best stays, best first', () => {
    expect(rates([at(100, 3), at(111, 2), at(200, 1)])).toEqual([200, 111])
    expect(rates([at(100, 3), at(113, 2), at(200, 1)])).toEqual([200, 113, 100])
  })
  it('turned about are the same: axis and rate both the other way', () => {
    expect(rates([at(100, 1), at(-100, 2, [0, 0, -1])])).toEqual([100])
    expect(rates([at(100, 1), at(100, 2, [0, 0, -1])])).toEqual([100, 100])
    expect(rates([at(100, 1), at(-113, 2, [0, 0, -1])])).toEqual([100, -113])
  })
  it('of a fast ball about axes within about 20° and of one rate are one, however far that turns them', () => {
    expect(rates([at(300, 1), at(305, 2, leant(19))])).toEqual([300])
    expect(rates([at(300, 1), at(305, 2, leant(21))])).toEqual([300, 305])
  })
  it('of slow balls about any axes are one', () => {
    expect(rates([at(5, 1), at(6, 2, leant(90))])).toEqual([5])
    expect(rates([at(5, 1), at(16, 2, leant(90))])).toEqual([5, 16])
  })
  it('are no more than asked for, and none worse than allowed', () => {
    const found = [at(100, 1), at(200, 2), at(300, 3), at(400, 4)]
    expect(rates(found, 2)).toEqual([100, 200])
    expect(rates(found, 9, best => 3 * best)).toEqual([100, 200, 300])
    expect(rates([])).toEqual([])
  })
})

describe('what a fit takes the camera to be', () => {
  const of = (capture: Partial<ReturnType<typeof observationsWith>['capture']>) => {
    const o = observationsWith()
    return equipmentOf({ ...o, capture: { ...o.capture, ...capture } })
  }
  it('is as said, in the middle of its picture', () => {
    const camera = { focalPx: 900, xPx: 480, yPx: 270 }
    expect(of({ focalLengthPx: 900 })).toMatchObject({ camera, steeperCamera: camera, viewIsOpen: false })
  })
  it('is 48° wide where nobody says, 64° within one uncertainty', () => {
    const { camera, steeperCamera, viewIsOpen } = of({})
    const wide = (focalPx: number) => (2 * Math.atan(480 / focalPx) * 180) / Math.PI
    expect(viewIsOpen).toBe(true)
    expect([wide(camera.focalPx), wide(steeperCamera.focalPx)].map(Math.round)).toEqual([48, 64])
  })
  it('has the readout that is said, its uncertainty or a tenth, else half an interval each', () => {
    expect(of({ readoutSeconds: 0.004, readoutUncertaintySeconds: 3e-4 })).toMatchObject({
      readoutSeconds: 0.004,
      readoutUncertaintySeconds: 3e-4,
    })
    expect(of({ readoutSeconds: 0.004 }).readoutUncertaintySeconds).toBeCloseTo(4e-4, 12)
    const { readoutSeconds, readoutUncertaintySeconds } = of({ readoutSeconds: null })
    expect([readoutSeconds, readoutUncertaintySeconds]).toEqual([1 / 480, 1 / 480])
  })
})
