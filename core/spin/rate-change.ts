import { studentT } from '../numerics/student-t.ts'
import { rpmOfRadPerSecond } from '../units/rate.ts'
import type { Estimate } from './estimate.ts'
import type { Observations } from './observations.ts'
import { phaseWeights, withoutLine } from './phase-residuals.ts'

export type RateChange = {
  /** Signed like the rate, rad/s². */
  perSecond: number
  standardUncertainty: number
  /** ½(t − t_middle)² at each sighting, less what offsets and rate take of it. */
  bend: Float64Array
  /** ∂perSecond/∂phase of each sighting. */
  leverage: Float64Array
}

/** Chance of calling a steady spin changing. */
const doubtChance = 0.001
const fewestRedundant = 3
/** A smaller share of the rate over the window is no news, however certain. */
const leastShare = 0.005

/**
 * The change of rate that the residuals of a steady fit show: phase = offset + rate·t + ½α·t². With q the
 * shape ½(t − t_middle)² less what offsets and rate take of it, α = ΣWqe / ΣWq², u = 1/√ΣWq².
 * Null where too few sightings are left to see a bend by. Source: JCGM 100:2008, H.3, with one column more.
 */
function rateChangeOf(estimate: Estimate, o: Observations): RateChange | null {
  if (estimate.scatter.redundancy < fewestRedundant) return null
  const middle = middleOf(estimate)
  const weights = phaseWeights(estimate)
  const bend = withoutLine(bendAbout(estimate, middle), weights, estimate, o)
  let information = 0
  let product = 0
  estimate.sightings.forEach((fit, k) => {
    information += weights[k]! * bend[k]! ** 2
    product += weights[k]! * bend[k]! * fit.phaseResidualRad
  })
  if (!(information > 0)) return null
  return {
    perSecond: product / information,
    standardUncertainty: 1 / Math.sqrt(information),
    bend,
    leverage: bend.map((q, k) => (weights[k]! * q) / information),
  }
}

/** A change of rate that chance does not explain and that matters, or null. */
export function certainChangeOf(estimate: Estimate, o: Observations): RateChange | null {
  const change = rateChangeOf(estimate, o)
  if (!change) return null
  const certain = studentT(1 - doubtChance / 2, estimate.scatter.redundancy - 1)
  const share = Math.abs((change.perSecond * spanOf(estimate)) / estimate.rateRadPerSecond)
  return Math.abs(change.perSecond) > certain * change.standardUncertainty && share > leastShare
    ? change
    : null
}

/** The warning that a spin is not steady, with its size. */
export function changeWords({ perSecond }: RateChange, estimate: Estimate): string {
  const share = (perSecond * spanOf(estimate)) / estimate.rateRadPerSecond
  const rpm = Math.abs(rpmOfRadPerSecond(perSecond * spanOf(estimate))).toFixed(0)
  return `The spin ${share < 0 ? 'falls' : 'rises'} by ${rpm} rpm (${Math.abs(share * 100).toFixed(1)} %) within the window.`
}

/**
 * The estimate of a spin that changes evenly: its rate is the one at the first sighting. The steady fit's
 * rate is that of the bent line less c·α, c = Σ(∂rate/∂phase)·½(t − t_first)²; so is every ∂rate/∂input.
 * Steady rate and α are uncorrelated (the bend is square to the line), so variances add.
 */
export function withRateChange(estimate: Estimate, o: Observations): Estimate {
  const change = rateChangeOf(estimate, o)
  if (!change) return { ...estimate, remarks: [...estimate.remarks, 'Too few marks to see the spin change.'] }
  const bend = bendAbout(estimate, Math.min(...estimate.sightings.map(fit => fit.timeSeconds)))
  const c = estimate.sightings.reduce((sum, fit, k) => sum + fit.ratePerPhaseRad * bend[k]!, 0)
  const rate = estimate.rateRadPerSecond - c * change.perSecond
  const grow = rate / estimate.rateRadPerSecond
  const [x, y, z] = estimate.rotationRadPerSecond
  const lost = rpmOfRadPerSecond(-change.perSecond) * Math.sign(rate)
  return {
    ...estimate,
    rateRadPerSecond: rate,
    rotationRadPerSecond: [x * grow, y * grow, z * grow],
    candidates: estimate.candidates.map(candidate =>
      candidate.rateRadPerSecond === estimate.rateRadPerSecond
        ? { ...candidate, rateRadPerSecond: rate }
        : candidate,
    ),
    changeRadPerSecond2: change.perSecond,
    scatterUncertaintyRadPerSecond: Math.hypot(
      estimate.scatterUncertaintyRadPerSecond,
      c * change.standardUncertainty,
    ),
    sightings: estimate.sightings.map((fit, k) => {
      const phase = c * change.leverage[k]!
      const px = fit.pxPerRad > 0 ? phase / fit.pxPerRad : 0
      return {
        ...fit,
        phaseResidualRad: fit.phaseResidualRad - change.perSecond * change.bend[k]!,
        ratePerPhaseRad: fit.ratePerPhaseRad - phase,
        ratePerXPx: fit.ratePerXPx - px * fit.way[0],
        ratePerYPx: fit.ratePerYPx - px * fit.way[1],
      }
    }),
    remarks: [
      ...estimate.remarks,
      `The rate is that at the first mark; it ${lost < 0 ? 'rises' : 'falls'} by ${Math.abs(lost).toFixed(0)} rpm a second.`,
    ],
  }
}

const middleOf = ({ sightings }: Estimate): number => {
  const times = sightings.map(fit => fit.timeSeconds)
  return (Math.min(...times) + Math.max(...times)) / 2
}
const spanOf = ({ sightings }: Estimate): number => {
  const times = sightings.map(fit => fit.timeSeconds)
  return Math.max(...times) - Math.min(...times)
}
const bendAbout = ({ sightings }: Estimate, seconds: number): Float64Array =>
  Float64Array.from(sightings, fit => (fit.timeSeconds - seconds) ** 2 / 2)
