import { robustLoss } from '../../numerics/robust-loss.ts'
import { aliasesOf } from './aliases-of.ts'
import type { Start } from './basins.ts'
import { clickMisfortune, doubtedFrom, type Expected } from './learn.ts'
import { rowsOfPoint } from './model.ts'
import { standardised } from './noise.ts'
import { evenTrust, refine, type Solution, solve } from './refine.ts'
import { noSharedErrors } from './shared.ts'
import type { Sights } from './sights.ts'
import { leastShowing, type SphereState } from './state.ts'

/** A solution and the logarithm of its likelihood, any zero. */
export type Contender = Solution & { logLikelihood: number }

const mostContenders = 12
/** A start is left behind when its −2 ln(likelihood) is worse than the best one's by this much. */
const hopeless = 60

/**
 * Refines all starts, a little at first, then those that may still win and the aliases of the best, and compares
 * what is left, best first. Each basin comes back once.
 */
export function compete(sights: Sights, starts: Start[], expected: Expected, maxRate: number): Contender[] {
  const settle = (state: SphereState, maxIterations: number, nearly: boolean): Settled => {
    const solved = solve(sights, state, evenTrust(sights, expected), { maxIterations, nearly })
    return { state: solved.state, misfortune: solved.leastSquares.sumOfSquares }
  }
  // Few sightings cost little each and leave valleys long; with many a few steps show where they lead.
  const firstSteps = Math.min(
    Math.max(Math.round(240 / (sights.points.length + sights.directions.length)), 4),
    40,
  )
  const begun = starts.map(({ rotation, places }) =>
    settle(
      { rotation, places, repeats: new Int32Array(0), shared: noSharedErrors(sights.marks.length) },
      firstSteps,
      false,
    ),
  )
  const settled = leading(begun, sights).map(({ state }) => settle(state, 40, true))
  const best = distinct(leading(settled, sights), sights).slice(0, mostContenders)
  // Aliases of the best fit as well under even frames, but a start for each may not have been found.
  const aliases = best[0]
    ? aliasesOf(sights, best[0].state, maxRate).map(state => settle(state, 40, true))
    : []
  const contenders = distinct([...best, ...aliases], sights)
    .map(({ state }) => refine(sights, state, expected))
    .filter(one => Number.isFinite(one.leastSquares.sumOfSquares) && showsItsLines(sights, one))
  return compared(contenders, sights, expected)
}

/**
 * A line that points at the camera shows no bearing that anyone would judge, yet any bearing fits it: a state
 * that needs more than a third of the lines so is none.
 */
function showsItsLines({ points, directions }: Sights, { misfit }: Solution): boolean {
  const short = misfit.showing.filter((showing, i) => i >= points.length && showing <= leastShowing).length
  return short <= directions.length / 3
}

type Settled = { state: SphereState; misfortune: number }

/** Those near enough to the best, best first. */
function leading(settled: Settled[], sights: Sights): Settled[] {
  const sorted = [...settled].sort((a, b) => a.misfortune - b.misfortune)
  const best = sorted[0]?.misfortune ?? 0
  const freedom = Math.max(
    1,
    2 * sights.points.length + sights.directions.length - 3 - 2 * sights.marks.length,
  )
  // Where clicks err more than was expected, all differences are larger than they look.
  return sorted.filter(s => s.misfortune - best <= hopeless * Math.max(1, best / freedom))
}

/** The first of each group of states that turn the ball alike to within a few degrees all through the hit. */
function distinct<S extends { state: SphereState }>(sorted: S[], { spanSeconds }: Sights): S[] {
  const kept: S[] = []
  for (const s of sorted) {
    const isNew = kept.every(
      ({
        state: {
          rotation: [x, y, z],
        },
      }) => {
        const [a, b, c] = s.state.rotation
        return (Math.hypot(a - x, b - y, c - z) * spanSeconds) / 2 > 0.05
      },
    )
    if (isNew) kept.push(s)
  }
  return kept
}

function compared(solutions: Solution[], sights: Sights, expected: Expected): Contender[] {
  const ranked = solutions
    .map(solution => ({
      solution,
      state: solution.state,
      misfortune: leastMisfortune(sights, solution, expected),
    }))
    .sort((a, b) => a.misfortune - b.misfortune)
  const best = ranked[0]?.misfortune ?? 0
  return distinct(ranked, sights).map(({ solution, misfortune }) => ({
    ...solution,
    logLikelihood: (best - misfortune) / 2,
  }))
}

/**
 * The misfortune of a solution, or of one beside it whose smears were clicked in their middles if that is less: whoever
 * takes care clicks so. That marks scatter less than smears clicked anywhere would is no evidence against a rate.
 */
function leastMisfortune(sights: Sights, solution: Solution, expected: Expected): number {
  const anywhere = misfortuneOf(sights, solution, expected)
  if (expected.smearSeconds.every(seconds => seconds === 0)) return anywhere
  const inMiddle = { ...expected, smearSeconds: new Float64Array(expected.smearSeconds.length) }
  const careful = misfortuneOf(sights, refine(sights, solution.state, inMiddle), inMiddle)
  return Math.min(anywhere, Number.isFinite(careful) ? careful : anywhere)
}

/**
 * −2 ln(likelihood) at the click error that the solution itself asks for, held by what was expected of it: the
 * same sum that `learned` makes smallest, no sighting counting for more than the robust loss lets it. Solutions
 * are not compared at one click error: lines that look short ask for a smaller one.
 */
function misfortuneOf(sights: Sights, solution: Solution, expected: Expected): number {
  const { misfit, state, noise, leastSquares, redundancy } = solution
  const plain = { ...noise, weights: noise.weights.map(() => 1) }
  const { sizes, logVariances } = standardised(sights, misfit, Math.hypot(...state.rotation), plain)
  const n = sights.points.length
  const rows = 2 * n + sights.directions.length
  let total = (redundancy / rows) * logVariances + clickMisfortune(noise.clickPx, expected)
  for (const size of sizes) total += robustLoss(size, doubtedFrom)
  const { residuals } = leastSquares
  for (let i = 0; i < n; i++) total += robustLoss(residuals[rowsOfPoint * i + 2]!, doubtedFrom)
  const firstHidden = rowsOfPoint * n + sights.directions.length
  residuals.subarray(firstHidden).forEach((residual, k) => {
    total += k < sights.hidden.length ? robustLoss(residual, doubtedFrom) : residual * residual
  })
  return total
}
