import { type FoundRate, foldedRate } from './alias.ts'
import { assumed, clearlyWorseSupport } from './assumptions.ts'
import type { Bearings } from './bearings-of.ts'
import { type BearingFit, type FitOptions, fitBearings } from './fit-bearings.ts'
import type { Observations } from './observations.ts'
import type { Peak } from './periodogram.ts'

const mostCandidates = 40

/** A rate that the search found, with its fit. */
export type Found = FoundRate & { fit: BearingFit }

/** Every peak that may not be clearly worse than the best, fitted; peaks that lead to one line count once. */
export function refine(o: Observations, b: Bearings, peaks: Peak[], options: FitOptions): Found[] {
  const prior = { px: options.clickPx, dof: o.clickPx === null ? 2 : assumed.statedClickDegreesOfFreedom }
  const freedom = prior.dof + b.count - 1 - b.marksSeen
  const log = (peak: Peak) => -0.5 * freedom * Math.log(prior.dof * prior.px ** 2 + peak.misfitPx2)
  const best = Math.max(...peaks.map(log))
  // The peak's misfit is that of whole waves, not squares, and of no tick: leave it some slack.
  const worthwhile = peaks
    .filter(peak => log(peak) > best + 2 * Math.log(clearlyWorseSupport))
    .sort((p, q) => p.misfitPx2 - q.misfitPx2)
    .slice(0, mostCandidates)
  // Where more are equal than are looked at, the slowest must not be lost: it is what a person would say.
  const slowest = slowestAlias(o, peaks, worthwhile[0])
  if (slowest && !worthwhile.includes(slowest)) worthwhile.push(slowest)
  const found: Found[] = []
  for (const peak of worthwhile) {
    const fit = fitBearings(b, peak.rateRadPerSecond, options)
    if (!fit) continue
    const alike = found.some(
      one => Math.abs(one.rateRadPerSecond - fit.rateRadPerSecond) * Math.sqrt(fit.spread) < 1e-6,
    )
    if (!alike)
      found.push({
        rateRadPerSecond: fit.rateRadPerSecond,
        logLikelihood: logLikelihoodOf(fit, b, options, prior),
        fit,
      })
  }
  const top = Math.max(...found.map(one => one.logLikelihood))
  return found.filter(one => one.logLikelihood > top + Math.log(clearlyWorseSupport))
}

/** The peak next to where the best one's slowest alias lies. */
function slowestAlias(o: Observations, peaks: Peak[], best: Peak | undefined): Peak | undefined {
  if (!best) return undefined
  const order = Math.min(...o.sightings.map(sighting => o.marks[sighting.mark]!.symmetryOrder))
  const wanted = foldedRate(best.rateRadPerSecond, o.capture.fps, order)
  const off = (peak: Peak) => Math.abs(peak.rateRadPerSecond - wanted)
  return peaks.reduce((near, peak) => (off(peak) < off(near) ? peak : near))
}

/**
 * Log likelihood of a fit with the click error unknown but for a prior (scaled inverse χ², `prior.dof`
 * degrees of freedom about `prior.px`), the line's parameters integrated out: Student's form,
 * −½(ν₀ + n − p)·ln s², s² = (ν₀s₀² + Q)/(ν₀ + n − p). Time errors widen each sighting by
 * 1 + (ρ·rate·τ/s)²; a doubted sighting counts as one of four standard deviations.
 *
 * Source: Gelman et al., Bayesian Data Analysis, 3rd ed., 14.2 (linear model, conjugate variance).
 */
function logLikelihoodOf(
  fit: BearingFit,
  b: Bearings,
  { timeErrorSeconds }: FitOptions,
  prior: { px: number; dof: number },
): number {
  const freedom = prior.dof + b.count - 1 - b.marksSeen
  let variance = prior.px ** 2
  let widening = 0
  for (let round = 0; round < 4; round++) {
    let squares = prior.dof * prior.px ** 2
    widening = 0
    for (let k = 0; k < b.count; k++) {
      const ρ = b.pxPerRad[k]!
      const widened = 1 + (ρ * fit.rateRadPerSecond * timeErrorSeconds) ** 2 / variance
      const squared = fit.weight[k]! * (ρ * fit.residualRad[k]!) ** 2 + (1 - fit.weight[k]!) * 16 * variance
      // What of the residual is the click's, given both variances (the E step of expectation–maximisation).
      squares += squared / widened ** 2 + variance * (1 - 1 / widened)
      widening += Math.log(widened)
    }
    variance = squares / freedom
  }
  return -0.5 * (freedom * Math.log(variance) + widening)
}
