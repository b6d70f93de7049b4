import { length } from '../../geometry/vector.ts'
import { uncertaintiesOf } from './gains.ts'
import { type Solution, solve } from './refine.ts'
import type { Sights } from './sights.ts'

/** How far off the fit is pulled, in standard uncertainties, and how hard: it then settles at about two. */
const pulledTo = 2.5
const pull = 2
/** An axis as well known as this leaves the errors on straight lines: looking again changes nothing. */
const straightAxisRad = 0.02

/**
 * How much wider the rate is open than straight-line propagation says: 1 where errors are small, more where
 * a short arc lets axis and rate bend together. The fit is pulled to where the ends of a 95 % band lie, d
 * standard uncertainties off; Σ of squares should rise by d². Where it rises by less, the uncertainty is
 * larger by d/√rise. The wider side counts.
 *
 * Source: likelihood profiles, Bates and Watts, Nonlinear Regression Analysis (1988), 6.1.2 (profile t).
 */
export function bendOf(sights: Sights, solution: Solution): number {
  const { rate: u, axisRad } = uncertaintiesOf(solution)
  if (axisRad < straightAxisRad) return 1
  const rate = length(solution.state.rotation)
  const bendTo = (side: 1 | -1) => {
    const held = { rateRadPerSecond: rate + side * pulledTo * u, trust: pull / u }
    const options = { maxIterations: 30, nearly: true }
    const { state, leastSquares } = solve(sights, solution.state, solution.whitening, options, held)
    const off = (length(state.rotation) - rate) / u
    const pulling = pull * (side * pulledTo - off)
    const rise = leastSquares.sumOfSquares - pulling ** 2 - solution.leastSquares.sumOfSquares
    return Math.abs(off) / Math.sqrt(Math.max(rise, 1e-3))
  }
  return Math.max(1, bendTo(1), rate > pulledTo * u ? bendTo(-1) : Number.POSITIVE_INFINITY)
}
