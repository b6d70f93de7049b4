import { wrapAngle } from '../numerics/wrap-angle.ts'
import { evenClock } from '../timing/even-clock.ts'
import { signOfSense } from '../units/sense.ts'
import { assumed, clearlyWorseSupport } from './assumptions.ts'
import type { Estimate, RateCandidate } from './estimate.ts'
import type { Observations } from './observations.ts'

/** A rate that a search found, and how likely it makes what was seen (natural logarithm, any zero). */
export type FoundRate = {
  rateRadPerSecond: number
  logLikelihood: number
  /** Its axis lies so near to the picture that the rate may turn either way. */
  senseIsOpen?: boolean
}

/**
 * Rates that even frames cannot tell apart are 2π·f/m apart: a mark of order m then turns by whole
 * repeats more from frame to frame. In rpm: 60·f/m.
 */
export const aliasSpacing = (fps: number, symmetryOrder: number): number =>
  (2 * Math.PI * fps) / symmetryOrder

/** What a rate looks like when the slowest turn from frame to frame is believed: within ± half the spacing. */
export const foldedRate = (rate: number, fps: number, symmetryOrder: number): number =>
  wrapAngle(rate, aliasSpacing(fps, symmetryOrder))

export function isPlausible(
  rate: number,
  { plausible }: Pick<Observations, 'plausible'>,
  senseIsOpen = false,
): boolean {
  if (Math.abs(rate) > plausible.maxRateRadPerSecond) return false
  return plausible.sense === null || senseIsOpen || Math.sign(rate) !== -signOfSense(plausible.sense)
}

/** Likelihoods nearer than this factor say nothing: even frames make aliases equal but for rounding and fit. */
const asLikely = 2

/**
 * The candidates with their support, best first: plausible ones that are not clearly worse before all
 * others, then by likelihood; of those as likely as each other the slower one first.
 *
 * Likelihoods are taken together with the smear's evidence (Bayes' rule with even odds beforehand).
 */
export function rankCandidates(found: readonly FoundRate[], o: Observations): RateCandidate[] {
  const weighed = found.map(one => ({
    rateRadPerSecond: one.rateRadPerSecond,
    plausible: isPlausible(one.rateRadPerSecond, o, one.senseIsOpen),
    log: one.logLikelihood + smearLogLikelihood(one.rateRadPerSecond, o),
  }))
  const best = Math.max(...weighed.map(one => one.log))
  const isFavoured = (one: { plausible: boolean; log: number }) =>
    one.plausible && one.log > best + Math.log(clearlyWorseSupport)
  const favoured = weighed.filter(isFavoured)
  const first = Math.max(...favoured.map(one => one.log)) - Math.log(asLikely)
  const order = (one: (typeof weighed)[number]) => {
    if (!isFavoured(one)) return one.log - best - 1e6
    const slowness = 1 - Math.abs(one.rateRadPerSecond) / o.plausible.maxRateRadPerSecond
    return one.log > first ? 1 + slowness : one.log - best
  }
  return weighed
    .sort((a, b) => order(b) - order(a))
    .map(({ rateRadPerSecond, plausible, log }) => ({
      rateRadPerSecond,
      support: best - log < Math.log(asLikely) ? 1 : Math.exp(log - best),
      plausible,
    }))
}

/**
 * What marked streaks say about a rate: their mean arc is |rate|·exposure. Each end is a click, so an arc
 * has √2·σ/ρ; on top the ends of a streak are soft, which all of them share.
 */
function smearLogLikelihood(rate: number, o: Observations): number {
  const { exposureSeconds } = o.capture
  if (!exposureSeconds) return 0
  let sum = 0
  let variance = 0
  let count = 0
  for (const sighting of o.sightings) {
    const outline = o.frames[sighting.frame]!.outline
    if (sighting.kind !== 'point' || sighting.smearArcRad === null || !outline) continue
    const ρ = Math.max(Math.hypot(sighting.xPx - outline.xPx, sighting.yPx - outline.yPx), 1)
    sum += sighting.smearArcRad
    variance += 2 * ((o.clickPx ?? assumed.clickPx) / ρ) ** 2
    count++
  }
  if (count === 0) return 0
  const expected = Math.abs(rate) * exposureSeconds
  const spread = variance / count ** 2 + (assumed.smearRelative * expected) ** 2
  return -0.5 * ((sum / count - expected) ** 2 / spread + Math.log(spread))
}

/**
 * True when evidence in the marks has told the aliases apart: uneven frame times or marked streaks, and
 * no other plausible rate left that is not clearly worse. Half a repeat a frame is no limit then.
 */
export function aliasesAreBroken({ candidates }: Estimate, o: Observations): boolean {
  const times = o.frames.map(frame => frame.timeSeconds)
  const numbers = o.frames.map(frame => frame.index)
  const uneven = evenClock(times, numbers, o.capture.fps, 0.04 / o.capture.fps) === null
  const streaks = o.sightings.some(sighting => sighting.kind === 'point' && sighting.smearArcRad !== null)
  const left = candidates.filter(one => one.plausible && one.support >= clearlyWorseSupport)
  return (uneven || (streaks && o.capture.exposureSeconds !== null)) && left.length <= 1
}
