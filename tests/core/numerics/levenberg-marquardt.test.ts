import { describe, expect, it } from 'vitest'
import { levenbergMarquardt } from '../../../core/numerics/levenberg-marquardt.ts'

/** The residual x itself, or what `spoiled` makes of it; `seen` are the places that were looked at after the start. */
function onLine(spoiled: (x: number) => number = x => x) {
  const seen: number[] = []
  let isStart = true
  const model = ([x]: Float64Array, residuals: Float64Array, jacobian: Float64Array) => {
    residuals[0] = spoiled(x!)
    jacobian[0] = 1
    if (!isStart) seen.push(x!)
    isStart = false
  }
  return { model, seen }
}

/**
 * On a straight line Jᵀr = x, JᵀJ = D = 1: a step goes from x to x·λ/(1 + λ), and gains exactly what was predicted,
 * so that Nielsen's rule, λ·max(1/3, 1 − (2·gain − 1)³), takes a third of λ.
 */
describe('damping by Nielsen’s rule, on a straight line, worked out by hand', () => {
  it('falls to a third after a step that gains what was foretold', () => {
    const { model, seen } = onLine()
    levenbergMarquardt(model, [1], 1, { damping: 1, maxIterations: 4 })
    // λ = 1, 1/3, 1/9, 1/27: factors 1/2, 1/4, 1/10, 1/28.
    expect(seen).toEqual([1 / 2, 1 / 8, 1 / 80, 1 / 2240].map(x => expect.closeTo(x, 15)))
  })
  it('starts at a thousandth unless told', () => {
    const { model, seen } = onLine()
    levenbergMarquardt(model, [1], 1, { maxIterations: 1 })
    expect(seen).toEqual([expect.closeTo(0.001 / 1.001, 15)])
  })
  it('grows by 2, 4, 8 … while steps fail, and by 2 again after one that did not', () => {
    const { model, seen } = onLine(x => (x < 0.93 ? 9 : x))
    levenbergMarquardt(model, [1], 1, { damping: 1, maxIterations: 7 })
    // λ = 1, 2, 8, 64 from 1: the last is kept. Then 64/3 from 64/65: kept. Then 64/9 and 128/9 from there: both fail.
    const kept = 64 / 65
    const next = (kept * 64) / 67
    expect(seen).toEqual(
      [1 / 2, 2 / 3, 8 / 9, kept, next, (next * 64) / 73, (next * 128) / 137].map(x => expect.closeTo(x, 14)),
    )
  })
  it('a step that gains half of what was foretold leaves λ as it is', () => {
    // From 1 with λ = 1 the step to 1/2 was to gain 3/4: residual √(1 − 3/8) gains half of it, and λ stays 1.
    const { model, seen } = onLine(x => (x === 0.5 ? Math.sqrt(5 / 8) : x))
    levenbergMarquardt(model, [1], 1, { damping: 1, maxIterations: 2 })
    expect(seen).toEqual([0.5, expect.closeTo(0.5 - Math.sqrt(5 / 8) / 2, 15)])
  })
})

/** r = scale·(x − 3): D is the largest diagonal of JᵀJ so far, so that the unit of a parameter says nothing. */
it('takes the same steps whatever unit a parameter is given in', () => {
  const placesIn = (unit: number) => {
    const seen: number[] = []
    levenbergMarquardt(
      ([x], residuals, jacobian) => {
        residuals.set([x! * unit - 3, 2 * x! * unit - 5])
        jacobian.set([unit, 2 * unit])
        if (x !== 1 / unit) seen.push(x! * unit)
      },
      [1 / unit],
      2,
      { damping: 1, maxIterations: 3 },
    )
    return seen
  }
  const [plain, milli] = [placesIn(1), placesIn(1000)]
  expect(milli).toEqual(plain.map(x => expect.closeTo(x, 12)))
})

it('a slope that falls keeps the scale that it once had', () => {
  // r = 1, slope 2 at the start and 1 afterwards: D stays 4. λ = 1: step −2/(4 + 4); then λ/3 of it: −1/(1 + 4/3).
  const seen: number[] = []
  let residual = 1
  levenbergMarquardt(
    ([x], residuals, jacobian) => {
      // Gains just what was foretold: 1·(1 + 2λ)/(1 + λ)² = 3/4.
      if (x !== 5) residual = 0.5
      residuals[0] = residual
      jacobian[0] = x === 5 ? 2 : 1
      if (x !== 5) seen.push(x!)
    },
    [5],
    1,
    { damping: 1, maxIterations: 2 },
  )
  expect(seen).toEqual([4.75, expect.closeTo(4.75 - 0.5 / (1 + 4 / 3), 14)])
})

it('a step that would leap out of its basin is damped until it does not', () => {
  // r = sin x from 1.4: the plain step, −tan 1.4 = −5.8, ends in another valley; 0 is the bottom of this one.
  const run = (isTooFar?: (step: Float64Array) => boolean) =>
    levenbergMarquardt(
      ([x], residuals, jacobian) => {
        residuals[0] = Math.sin(x!)
        jacobian[0] = Math.cos(x!)
      },
      [1.4],
      1,
      { damping: 1e-9, isTooFar },
    ).parameters[0]!
  expect(Math.abs(run())).toBeGreaterThan(3)
  expect(run(step => Math.abs(step[0]!) > 0.5)).toBeCloseTo(0, 9)
})

describe('its end', () => {
  it('a start that fits exactly is the answer, without a step, covariance and all', () => {
    const fit = levenbergMarquardt(
      ([x], residuals, jacobian) => {
        residuals.set([x! - 2, 2 * x! - 4])
        jacobian.set([1, 2])
      },
      [2],
      2,
    )
    expect(fit).toMatchObject({ converged: true, iterations: 0, sumOfSquares: 0 })
    // 1/(1² + 2²)
    expect(fit.covariance![0]).toBeCloseTo(0.2, 12)
  })
  it('stops where it may go no further, and says that it is not there', () => {
    const { model } = onLine()
    const fit = levenbergMarquardt(model, [1], 1, { damping: 1, maxIterations: 3 })
    expect(fit).toMatchObject({ converged: false, iterations: 3 })
    expect(fit.parameters[0]).toBeCloseTo(1 / 80, 15)
    expect(fit.residuals[0]).toBe(fit.parameters[0])
    expect(fit.sumOfSquares).toBe(fit.residuals[0]! ** 2)
  })
  it('gives up where no slope is a number, and stays at its start', () => {
    const fit = levenbergMarquardt(
      (_, residuals, jacobian) => {
        residuals[0] = 1
        jacobian.fill(Number.NaN)
      },
      [7],
      1,
    )
    expect(fit).toMatchObject({ converged: false, sumOfSquares: 1, covariance: null })
    expect(fit.parameters[0]).toBe(7)
    // λ after k failures is 1e-3 · 2^(k(k + 1)/2): 4e28 for k = 14, 1.3e33 and so above 1e30 for k = 15.
    expect(fit.iterations).toBe(15)
  })
  it('ends sooner with a coarser tolerance, by the last step’s share of the parameter', () => {
    // The middle of 2 and 4 from 1: what is left of the way falls by λ/(1 + λ), so that the tolerance says where it ends.
    const run = (tolerance: number) =>
      levenbergMarquardt(
        ([x], residuals, jacobian) => {
          residuals.set([x! - 2, x! - 4])
          jacobian.set([1, 1])
        },
        [1],
        2,
        { tolerance, damping: 1 },
      )
    // Left after k steps of 2·Π λ/(1 + λ), λ = 3⁻ᵏ: 1, 1/4, 1/40, 1/1120, 1.09e-5, 4.5e-8. The step that is below
    // 1 % of 3 is the fourth (0.0241); below 1e-6 of it the sixth (1.09e-5 is above 3e-6) and the seventh (4.5e-8).
    expect(run(0.01)).toMatchObject({ converged: true, iterations: 4 })
    expect(run(1e-6)).toMatchObject({ converged: true, iterations: 7 })
    expect(run(0.01).parameters[0]).toBeCloseTo(3 - 1 / 1120, 12)
  })
})
