import { describe, expect, it } from 'vitest'
import { expectedOf } from '../../../../core/spin/sphere/fit-sphere.ts'
import { sphereModel } from '../../../../core/spin/sphere/model.ts'
import { evenTrust } from '../../../../core/spin/sphere/refine.ts'
import { nearestRepeats } from '../../../../core/spin/sphere/repeats.ts'
import { sharedTrust } from '../../../../core/spin/sphere/shared.ts'
import { misfitOf, type SphereState } from '../../../../core/spin/sphere/state.ts'
import { simulateHit } from '../../../bench/simulate/hit.ts'
import { type Prepared, preparedOf } from './prepared.ts'

/** Simulated hits of every kind: near and far cameras, one and two marks, points and lines, orders 1 and 2. */
const prepared = Array.from({ length: 60 }, (_, seed) => preparedOf(simulateHit(seed))).filter(
  (p): p is Prepared => p !== null,
)

describe('the slopes of the sphere fit', () => {
  it.each(prepared.slice(0, 24).map(p => [p.hit.factors.markKind, p] as const))(
    'agree with numeric slopes (%s)',
    (_, { observations, sights, state }) => {
      const trust = evenTrust(sights, expectedOf(observations, sights))
      trust.shared = sharedTrust(sights, { centrePx: 1, radiusPx: 1 })
      const held = { rateRadPerSecond: 100, trust: 0.1 }
      const model = sphereModel(sights, state.places, nearestRepeats(sights, state), trust, held)
      const at = new Float64Array(model.parameterCount)
      at.set(state.rotation)
      at.fill(0.02, 3)
      const residuals = new Float64Array(model.residualCount)
      const jacobian = new Float64Array(model.residualCount * at.length)
      model.fill(at, residuals, jacobian)
      for (let k = 0; k < at.length; k++) {
        const step = 1e-6 * Math.max(1, Math.abs(at[k]!))
        const [plus, minus] = [1, -1].map(side => {
          const there = at.slice()
          there[k]! += side * step
          const values = new Float64Array(residuals.length)
          model.fill(there, values, new Float64Array(jacobian.length))
          return values
        })
        const column = Array.from(residuals, (_, i) => jacobian[i * at.length + k]!)
        const largest = Math.max(...column.map(Math.abs))
        column.forEach((slope, i) => {
          const numeric = (plus![i]! - minus![i]!) / (2 * step)
          expect(Math.abs(numeric - slope)).toBeLessThan(1e-4 * (largest + 1e-6))
        })
      }
    },
  )
})

describe('the model of a camera and a ball', () => {
  it('shows marks where a simulator that shares no code with it has them, all that is known being exact', () => {
    const exact = Array.from({ length: 400 }, (_, seed) => simulateHit(seed, 'none'))
      .filter(({ factors: f }) => f.markKind === 'point' && f.focalKnown && f.readoutKnown)
      .filter(({ factors: f }) => f.times !== 'uneven' || !f.tickSeconds || f.tickSeconds < 1e-4)
      .filter(({ factors: f }) => f.tickSeconds !== 1 / 600)
      .flatMap(hit => preparedOf(hit) ?? [])
    expect(exact.length).toBeGreaterThan(20)
    const worst = exact.map(({ sights, state, hit }) => {
      const { x, y } = misfitOf(sights, { ...state, repeats: nearestRepeats(sights, state) } as SphereState)
      return Math.max(...x.map((dx, i) => Math.hypot(dx, y[i]!))) / hit.factors.radiusPx
    })
    // The spin decays a little in the simulator; the model holds it.
    worst.sort((a, b) => a - b)
    expect(worst[worst.length >> 1]).toBeLessThan(0.01)
    expect(worst[Math.floor(worst.length * 0.9)]).toBeLessThan(0.05)
  })
})
