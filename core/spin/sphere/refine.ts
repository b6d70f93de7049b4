import type { Vector } from '../../geometry/vector.ts'
import { type LeastSquares, levenbergMarquardt } from '../../numerics/levenberg-marquardt.ts'
import { outlineUncertainty } from '../outline-uncertainty.ts'
import { type Expected, learned, noiseBefore } from './learn.ts'
import { type HeldRate, sphereModel, type Whitening } from './model.ts'
import { Motion } from './motion.ts'
import { type Noise, whiteningOf } from './noise.ts'
import { nearestRepeats } from './repeats.ts'
import { openErrors, sharedTrust } from './shared.ts'
import type { Sights } from './sights.ts'
import { type Misfit, misfitOf, type SphereState } from './state.ts'

/** The bottom of one basin, and what is known of the errors there. */
export type Solution = {
  state: SphereState
  misfit: Misfit
  noise: Noise
  whitening: Whitening
  leastSquares: LeastSquares
  /** Numbers seen, weights included, less the unknowns that they had to settle. */
  redundancy: number
}

const rounds = 3

/** Least squares from a state, trust held. `nearly` says that the state lies near the bottom already. */
export function solve(
  sights: Sights,
  from: SphereState,
  whitening: Whitening,
  { maxIterations, nearly }: { maxIterations: number; nearly: boolean },
  held: HeldRate | null = null,
): { state: SphereState; leastSquares: LeastSquares } {
  const repeats = nearestRepeats(sights, from)
  const model = sphereModel(sights, from.places, repeats, whitening, held)
  const start = new Float64Array(model.parameterCount)
  start.set(from.rotation)
  model.open.forEach((k, i) => {
    start[model.parameterCount - model.open.length + i] = from.shared[k]!
  })
  const leastSquares = levenbergMarquardt(model.fill, start, model.residualCount, {
    maxIterations,
    // Σ of squares to 1 part in 10⁸: far below what a click error moves.
    tolerance: 1e-4,
    damping: nearly ? 1e-6 : 1e-3,
    isTooFar: step => leapsAway(step, sights),
  })
  const at = leastSquares.parameters
  const motion = new Motion(from.places)
  motion.set(at)
  const rotation: Vector = [at[0]!, at[1]!, at[2]!]
  return {
    state: { rotation, places: motion.placesAtZero(), repeats, shared: model.sharedOf(at) },
    leastSquares,
  }
}

/** A step may turn the ends of the hit against its middle, or a mark about the ball, by this much. */
const farthestStepRad = 0.5

/** Basins lie about a repeat at the ends of the hit apart, so that a step that turns further may land in any of them. */
function leapsAway(step: Float64Array, { spanSeconds, marks }: Sights): boolean {
  const turned = (Math.hypot(step[0]!, step[1]!, step[2]!) * spanSeconds) / 2
  if (turned > farthestStepRad) return true
  for (let mark = 0; mark < marks.length; mark++) {
    if (Math.hypot(step[3 + 2 * mark]!, step[4 + 2 * mark]!) > farthestStepRad) return true
  }
  return false
}

/** Trust before anything is known: all clicks alike, times exact, outlines right. */
export function evenTrust(sights: Sights, { clickPx }: Expected): Whitening {
  const trust = 1 / clickPx
  return {
    points: Float64Array.from({ length: 3 * sights.points.length }, (_, i) => (i % 3 === 1 ? 0 : trust)),
    directions: new Float64Array(sights.directions.length).fill(trust),
    oneSided: trust,
    shared: sharedTrust(sights, null),
  }
}

/**
 * Least squares with the trust in each sighting found along the way: how large clicks err (from the
 * residuals and what was expected, pooled), what time errors add along a mark's way, and the weights of a
 * robust loss. The shared error of the outline is estimated too, held by its expected size.
 */
export function refine(sights: Sights, start: SphereState, expected: Expected): Solution {
  let state = start
  let misfit = misfitOf(sights, state)
  const numbers = 2 * sights.points.length + sights.directions.length
  let redundancy = Math.max(numbers - 3 - 2 * sights.marks.length, 0)
  let noise = noiseBefore(expected)
  let solution: Solution | null = null
  for (let round = 1; round <= rounds; round++) {
    const before = noise
    noise = learned(sights, misfit, Math.hypot(...state.rotation), before, redundancy, expected)
    if (solution && isSameNoise(before, noise)) break
    const shared = sharedTrust(sights, outlineUncertainty(noise.clickPx))
    const whitening = whiteningOf(sights, misfit, Math.hypot(...state.rotation), noise, shared)
    const solved = solve(sights, state, whitening, { maxIterations: 30, nearly: true })
    state = solved.state
    misfit = misfitOf(sights, state)
    redundancy = redundancyOf(sights, noise, whitening, solved.leastSquares)
    solution = { ...solved, misfit, noise, whitening, redundancy }
  }
  return solution!
}

/** Errors that are known this much alike lead to the same fit. */
const sameNoise = 1e-3

function isSameNoise(a: Noise, b: Noise): boolean {
  const alike = (x: number, y: number) => Math.abs(x - y) <= sameNoise * Math.max(x, y)
  return (
    alike(a.clickPx, b.clickPx) &&
    alike(a.openSmearSeconds, b.openSmearSeconds) &&
    a.weights.every((weight, i) => Math.abs(weight - b.weights[i]!) <= sameNoise)
  )
}

function redundancyOf(
  sights: Sights,
  noise: Noise,
  whitening: Whitening,
  { parameters, covariance }: LeastSquares,
): number {
  const p = parameters.length
  const n = sights.points.length
  let numbers = 0
  noise.weights.forEach((w, i) => {
    numbers += i < n ? 2 * w : w
  })
  // An unknown that its own expected size holds takes less than one number to settle.
  const open = openErrors(whitening.shared)
  const heldShare = covariance
    ? open.reduce((sum, k, i) => {
        const at = p - open.length + i
        return sum + whitening.shared[k]! ** 2 * covariance[at * (p + 1)]!
      }, 0)
    : 0
  return Math.max(numbers - (p - heldShare), 0)
}
