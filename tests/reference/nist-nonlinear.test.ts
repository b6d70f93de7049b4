import { describe, expect, it } from 'vitest'
import { levenbergMarquardt, type ResidualModel } from '../../core/numerics/levenberg-marquardt.ts'
import { digitsThatAgree, eckerle4, mgh17, misra1a } from './nist-strd.ts'

const misra: ResidualModel = (b, residuals, jacobian) =>
  misra1a.forEach(([x, y], i) => {
    const e = Math.exp(-b[1]! * x)
    residuals[i] = b[0]! * (1 - e) - y
    jacobian.set([1 - e, b[0]! * x * e], 2 * i)
  })

const eckerle: ResidualModel = (b, residuals, jacobian) =>
  eckerle4.forEach(([x, y], i) => {
    const z = (x - b[2]!) / b[1]!
    const e = Math.exp(-0.5 * z * z) / b[1]!
    residuals[i] = b[0]! * e - y
    jacobian.set([e, (b[0]! * e * (z * z - 1)) / b[1]!, (b[0]! * e * z) / b[1]!], 3 * i)
  })

const mgh: ResidualModel = (b, residuals, jacobian) =>
  mgh17.forEach((y, i) => {
    const x = 10 * i
    const [e4, e5] = [Math.exp(-x * b[3]!), Math.exp(-x * b[4]!)]
    residuals[i] = b[0]! + b[1]! * e4 + b[2]! * e5 - y
    jacobian.set([1, e4, e5, -x * b[1]! * e4, -x * b[2]! * e5], 5 * i)
  })

/** Certified [value, standard deviation] of each parameter, and the residual sum of squares. */
const sets = [
  {
    name: 'Misra1a',
    model: misra,
    observations: 14,
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    certified: [
      [2.3894212918e2, 2.7070075241],
      [5.5015643181e-4, 7.2668688436e-6],
    ],
    sumOfSquares: 1.2455138894e-1,
  },
  {
    name: 'Eckerle4',
    model: eckerle,
    observations: 35,
    starts: [
      [1, 10, 500],
      [1.5, 5, 450],
    ],
    certified: [
      [1.5543827178, 1.5408051163e-2],
      [4.0888321754, 4.6803020753e-2],
      [4.5154121844e2, 4.6800518816e-2],
    ],
    sumOfSquares: 1.4635887487e-3,
  },
  {
    name: 'MGH17',
    model: mgh,
    observations: 33,
    starts: [
      [50, 150, -100, 1, 2],
      [0.5, 1.5, -1, 0.01, 0.02],
    ],
    certified: [
      [3.7541005211e-1, 2.0723153551e-3],
      [1.9358469127, 2.2031669222e-1],
      [-1.4646871366, 2.2175707739e-1],
      [1.286753464e-2, 4.4861358114e-4],
      [2.2122699662e-2, 8.9471996575e-4],
    ],
    sumOfSquares: 5.4648946975e-5,
  },
]

describe('NIST StRD, nonlinear least squares, from both published starts', () => {
  for (const { name, model, observations, starts, certified, sumOfSquares } of sets) {
    it.each([0, 1])(`${name} from start %i to at least six digits`, which => {
      const fit = levenbergMarquardt(model, starts[which]!, observations, { maxIterations: 2000 })
      expect(fit.converged).toBe(true)
      expect(digitsThatAgree(fit.sumOfSquares, sumOfSquares)).toBeGreaterThan(6)
      const p = certified.length
      const variance = fit.sumOfSquares / (observations - p)
      certified.forEach(([value, deviation], i) => {
        expect(digitsThatAgree(fit.parameters[i]!, value!)).toBeGreaterThan(6)
        const computed = Math.sqrt(variance * fit.covariance![i * p + i]!)
        expect(digitsThatAgree(computed, deviation!)).toBeGreaterThan(6)
      })
    })
  }
})
