import { length, scaled, sum, type Vector } from '../../geometry/vector.ts'
import { totalOf } from './agreement.ts'
import { patches } from './evidence.ts'

/** Stretches of a flight that are held against each other. */
const mostStretches = 12
/** An outline that is off by a part of a pixel changes what the frames say by about this share of it. */
const unsettled = 0.03
/** The same where the frames' evidence is taken at its word: pattern, light and outlines err alike in all of them. */
const unsettledInAll = 0.08

/**
 * How much less likely a rival is than the best (natural logarithm, at most 0), both as evidence frame by frame: by
 * whichever of two ways is the surer. One fits rivals that are a little worse everywhere, the other those that are
 * far worse but unevenly so, as a rate that slips by a hole in the course of the flight, and short flights.
 */
export const logOdds = (rival: Float64Array, best: Float64Array): number =>
  Math.min(byScatter(rival, best), byEvidence(rival, best))

/**
 * Whether two rotations differ by whole turns between frames, which look alike whatever the frames show: the
 * difference of their vectors is then a multiple of 2π/interval.
 */
export function areAliases(a: Vector, b: Vector, intervalSeconds: number): boolean {
  const turns = (length(sum(a, scaled(b, -1))) * intervalSeconds) / (2 * Math.PI)
  return turns > 0.5 && Math.abs(turns - Math.round(turns)) < 0.05
}

/**
 * The difference of what the frames say is held against its own scatter from stretch to stretch of the flight
 * (Student's t), since neighbouring frames err alike.
 */
function byScatter(rival: Float64Array, best: Float64Array): number {
  const n = best.length
  const stretches = Math.max(2, Math.min(mostStretches, Math.floor(n / 2)))
  const sums = new Float64Array(stretches)
  for (let i = 0; i < n; i++) sums[Math.floor((i * stretches) / n)]! += best[i]! - rival[i]!
  const mean = totalOf(sums) / stretches
  const square = sums.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (stretches - 1) / stretches
  const modelled = (unsettled * totalOf(best)) / stretches
  const t = Math.max(mean, 0) / Math.sqrt(square + modelled ** 2 + 1e-12)
  return (-n / 2) * Math.log1p(t ** 2 / (n - 1))
}

/**
 * The difference is held against what chance leaves in correlations: c between N normal pairs has the standard
 * uncertainty (1 − c²)/√N, so its evidence −N/2·ln(1 − c²) has the variance N·c² (first order), with
 * c² = 1 − exp(−2·evidence/N).
 */
function byEvidence(rival: Float64Array, best: Float64Array): number {
  const difference = Math.max(totalOf(best) - totalOf(rival), 0)
  const chance = varianceOf(best) + varianceOf(rival)
  return (-0.5 * difference ** 2) / (chance + (unsettledInAll * totalOf(best)) ** 2 + 1e-12)
}

const varianceOf = (evidence: Float64Array): number =>
  evidence.reduce((sum, one) => sum + patches * -Math.expm1((-2 * Math.abs(one)) / patches), 0)
