import { pixelGridContribution, smearContribution, tickContribution } from './budget-random.ts'
import {
  captureContribution,
  decayContribution,
  lineOfSightContribution,
  outlineContribution,
  patternContribution,
  readoutContribution,
  tiltContribution,
} from './budget-systematic.ts'
import { type Contribution, random } from './contribution.ts'
import type { Estimate } from './estimate.ts'
import type { Observations } from './observations.ts'

/**
 * Every line of method.md's table for one estimate. Each is the law of propagation, JCGM 100:2008 (10) or
 * for what all sightings share (16), with the estimate's own ∂rate/∂input.
 *
 * Residuals hold the marking, the pixel grid, the smear and the tick all at once. So where they give the
 * scatter, its variance is shared out: grid and tick take their due first (and all of it, if the
 * residuals happened to be smaller), smear next, and the rest is the marking's. Where a click error was
 * stated, it is the marking's, and the others come on top.
 */
export function budgetOf(estimate: Estimate, o: Observations): Contribution[] {
  const grid = pixelGridContribution(estimate)
  const tick = tickContribution(estimate, o)
  const smear = smearContribution(estimate, o)
  const marking = random('marking scatter', estimate.scatterUncertaintyRadPerSecond)
  marking.degreesOfFreedom = estimate.scatter.degreesOfFreedom
  marking.withScatter = true
  if (estimate.scatter.from === 'residuals') shareOut(marking, [grid, tick], smear)
  return [
    marking,
    grid,
    smear,
    outlineContribution(estimate, o),
    patternContribution(estimate),
    tick,
    captureContribution(estimate, o),
    readoutContribution(estimate, o),
    lineOfSightContribution(estimate, o),
    decayContribution(estimate, o),
    ...tiltContribution(estimate, o),
  ].filter(line => line.standardUncertainty > 0)
}

/**
 * Leaves the marking what the others do not account for. The variance of what is left is that of the
 * whole, 2u⁴/ν, so its own degrees of freedom are ν·(u_left/u_whole)⁴ and Welch–Satterthwaite gives ν for
 * the sum again.
 */
function shareOut(marking: Contribution, due: Contribution[], smear: Contribution): void {
  const whole = marking.standardUncertainty ** 2
  const left = Math.max(whole - due.reduce((sum, line) => sum + line.standardUncertainty ** 2, 0), 0)
  // A smear clicked in its middle scatters less than one clicked anywhere: it takes half at the most.
  const smeared = Math.min(smear.standardUncertainty ** 2, left / 2)
  smear.standardUncertainty = Math.sqrt(smeared)
  marking.standardUncertainty = Math.sqrt(left - smeared)
  marking.degreesOfFreedom *= ((left - smeared) / whole) ** 2
}
