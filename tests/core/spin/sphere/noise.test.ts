import { describe, expect, it } from 'vitest'
import { median } from '../../../../core/numerics/median.ts'
import { expectedOf } from '../../../../core/spin/sphere/fit-sphere.ts'
import { noiseBefore } from '../../../../core/spin/sphere/learn.ts'
import { standardised, whiteningOf } from '../../../../core/spin/sphere/noise.ts'
import { nearestRepeats } from '../../../../core/spin/sphere/repeats.ts'
import { misfitOf } from '../../../../core/spin/sphere/state.ts'
import { simulateHit } from '../../../bench/simulate/hit.ts'
import { outlinesOf, rowsOf } from '../../../bench/simulate/rows.ts'
import { preparedOf } from './prepared.ts'

const hits = Array.from({ length: 40 }, (_, seed) => simulateHit(seed))

describe('the noise of sightings', () => {
  it('whitens errors to the squares that it reckons them at', () => {
    const prepared = hits.flatMap(hit => preparedOf(hit) ?? [])
    expect(prepared.length).toBeGreaterThan(10)
    for (const { observations, sights, state, hit } of prepared) {
      const misfit = misfitOf(sights, state)
      const rate = Math.hypot(...state.rotation)
      const noise = {
        ...noiseBefore(expectedOf(observations, sights)),
        openSmearSeconds: hit.scene.exposureSeconds,
      }
      const { points, directions } = whiteningOf(sights, misfit, rate, noise, [])
      const whitened = sights.points.reduce((sum, _, i) => {
        const [xx, xy, yy] = [points[3 * i]!, points[3 * i + 1]!, points[3 * i + 2]!]
        const [x, y] = [misfit.x[i]!, misfit.y[i]!]
        return sum + (xx * x + xy * y) ** 2 + (xy * x + yy * y) ** 2
      }, 0)
      const arcs = sights.directions.reduce(
        (sum, _, j) => sum + (directions[j]! * misfit.x[sights.points.length + j]!) ** 2,
        0,
      )
      const { sumOfSquares } = standardised(sights, misfit, rate, noise)
      expect((whitened + arcs) / sumOfSquares).toBeCloseTo(1, 9)
    }
  })

  it('counts the flight in a smear: a mark moves in the picture as a simulator that shares no code moves it', () => {
    const off: number[] = []
    const offWithoutFlight: number[] = []
    for (const hit of Array.from({ length: 120 }, (_, seed) => simulateHit(seed, 'none'))) {
      const prepared = hit.factors.markKind === 'point' && hit.factors.focalKnown ? preparedOf(hit) : null
      if (!prepared) continue
      const { sights, state } = prepared
      const misfit = misfitOf(sights, { ...state, repeats: nearestRepeats(sights, state) })
      const rate = Math.hypot(...state.rotation)
      const outlines = outlinesOf(hit, hit.scene)
      const [now, later] = [0, 1e-6].map(late => rowsOf(hit, hit.scene, outlines, late))
      sights.points.forEach(({ sighting, view }, i) => {
        const perSecond = (row: number) =>
          ((later![row]! - now![row]!) / 1e-6) * (view.outline.radiusPx / hit.factors.radiusPx)
        const [x, y] = [perSecond(2 * sighting), perSecond(2 * sighting + 1)]
        const [turnX, turnY] = [rate * misfit.wayX[i]!, rate * misfit.wayY[i]!]
        const { x: flightX, y: flightY } = sights.velocity
        off.push(Math.hypot(turnX + flightX - x, turnY + flightY - y) / Math.hypot(x, y))
        offWithoutFlight.push(Math.hypot(turnX - x, turnY - y) / Math.hypot(x, y))
      })
    }
    expect(off.length).toBeGreaterThan(100)
    // The model takes the flight to be even, where perspective quickens a ball that comes nearer.
    expect(median(off)).toBeLessThan(0.03)
    expect(median(offWithoutFlight)).toBeGreaterThan(0.2)
  })
})
