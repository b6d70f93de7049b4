import type { Band, Ceiling, Flag } from '../contract/reading.ts'
import { degOfRad } from '../units/angle.ts'
import { rpmOfRadPerSecond } from '../units/rate.ts'
import { senseOfRate } from '../units/sense.ts'
import { aliasSpacing } from './alias.ts'
import { assumed, clearlyWorseSupport } from './assumptions.ts'
import type { Estimate, RateCandidate } from './estimate.ts'
import type { Observations } from './observations.ts'
import { wordingOf } from './wording.ts'

export type Flagged = { flag: Flag; reasons: string[] }

/** From here on a reading is near its ceiling. */
const nearCeiling = 0.8
/** Fewer sightings, or fewer numbers beyond the unknowns, let a wrong rate fit by chance. */
const fewestSightings = 6
const fewestRedundant = 4
/** A plausible rate five times less likely than one that is not plausible puts what was said to be plausible in doubt. */
const doubtfulSupport = 0.2
/** Scatter beyond this multiple of the click error is not the clicks'. */
const plausibleScatter = 2.5

/**
 * The flag of method.md and why, the gravest first: ambiguous, too few frames, near the ceiling, clear. Marks
 * that scatter too far, or leave the axis open, count as too few: they do not carry the figure either.
 *
 * A person's settled choice does not change the flag: that other rates fit stays true. What it changes is
 * that the reading may be exported, with its reason; the export looks at the choice, not at the flag.
 */
export function flagOf(estimate: Estimate, band: Band, ceiling: Ceiling | null, o: Observations): Flagged {
  const ambiguous = [
    ...otherRates(estimate, band, o),
    ...implausible(estimate, o),
    ...pastCeiling(estimate, ceiling, o),
  ]
  const few = [
    ...tooFew(estimate, o),
    ...scattered(estimate, o),
    ...(estimate.unchecked ? [estimate.unchecked] : []),
  ]
  const near = nearIts(band, ceiling)
  const reasons = [...ambiguous, ...few, ...(ambiguous.length === 0 ? near : [])]
  if (ambiguous.length > 0) return { flag: 'ambiguous', reasons }
  if (few.length > 0) return { flag: 'too-few-frames', reasons }
  return { flag: near.length > 0 ? 'near-ceiling' : 'clear', reasons }
}

const rpm = (rate: number) => `${Math.abs(rpmOfRadPerSecond(rate)).toFixed(0)} rpm`
const degreesAFrame = (rate: number, o: Observations) =>
  `${degOfRad(Math.abs(rate) / o.capture.fps).toFixed(0)}°`
const lowestOrder = (o: Observations) =>
  Math.min(...o.sightings.map(sighting => o.marks[sighting.mark]!.symmetryOrder))

/** Rates outside the band that fit as well. A mirrored axis with the same rate is no other rate. */
function otherRates(estimate: Estimate, band: Band, o: Observations): string[] {
  const sign = Math.sign(estimate.rateRadPerSecond)
  const inBand = (rate: number) => {
    const alongside = rpmOfRadPerSecond(rate) * sign
    return alongside >= band.lowRpm && alongside <= band.highRpm
  }
  const others = estimate.candidates.filter(
    one => one.plausible && one.support >= clearlyWorseSupport && !inBand(one.rateRadPerSecond),
  )
  const other = others[0]
  if (!other) return []
  const more = others.length > 1 ? `, and ${others.length - 1} more` : ''
  return [`${aliasWords(estimate, other, o)}${more}.`]
}

function aliasWords(
  { rateRadPerSecond: rate, method }: Estimate,
  other: RateCandidate,
  o: Observations,
): string {
  const order = lowestOrder(o)
  const half = 180 / order
  const way = senseOfRate(other.rateRadPerSecond) === senseOfRate(rate) ? '' : ' the other way'
  const turns = `Turns ${degreesAFrame(rate, o)} a frame`
  const fits = `${rpm(other.rateRadPerSecond)}${way} fits as well`
  const spacings = (rate - other.rateRadPerSecond) / aliasSpacing(o.capture.fps, order)
  const isAlias = Math.abs(spacings - Math.round(spacings)) < 0.02
  if (!isAlias) return `${turns}, but the ${wordingOf(method).seen} do not settle it: ${fits}`
  const past = degOfRad(Math.abs(rate) / o.capture.fps) > half
  if (past && way) return `${turns}. Above ${half.toFixed(0)}° the camera cannot tell which way: ${fits}`
  return `${turns}. At ${o.capture.fps} frames a second that looks like ${degreesAFrame(other.rateRadPerSecond, o)}${way}: ${fits}`
}

/** The chosen rate is not plausible, or one that is not fits so much better that what was said to be plausible is in doubt. */
function implausible({ candidates, rateRadPerSecond }: Estimate, o: Observations): string[] {
  const own = candidates.find(candidate => candidate.rateRadPerSecond === rateRadPerSecond)
  if (!own) return []
  const named = (one: RateCandidate) => `${rpm(one.rateRadPerSecond)} ${senseOfRate(one.rateRadPerSecond)}`
  if (own.plausible) {
    const better = candidates.find(one => !one.plausible && one.support > own.support / doubtfulSupport)
    return better
      ? [
          `${named(better)}, which should not be, fits far better than ${named(own)}: check the marks and the sense.`,
        ]
      : []
  }
  const fast = Math.abs(own.rateRadPerSecond) > o.plausible.maxRateRadPerSecond
  const known = fast ? `at most ${rpm(o.plausible.maxRateRadPerSecond)}` : `turning ${o.plausible.sense}`
  return [`No plausible rate fits: the best is ${named(own)}, where it should be ${known}.`]
}

function pastCeiling(estimate: Estimate, ceiling: Ceiling | null, o: Observations): string[] {
  const rate = Math.abs(rpmOfRadPerSecond(estimate.rateRadPerSecond))
  if (!ceiling || rate <= ceiling.rpm) return []
  return [
    `Turns ${degreesAFrame(estimate.rateRadPerSecond, o)} a frame: past the ceiling of ${ceiling.rpm.toFixed(0)} rpm (${limitWords[ceiling.limit]}).`,
  ]
}

const limitWords = {
  sense: 'faster, the sense cannot be told',
  seeing: 'faster, the mark is not seen in two frames running',
  smear: 'faster, the mark smears too far',
  counting: 'faster, counting is too coarse',
} as const

function tooFew({ scatter, method }: Estimate, o: Observations): string[] {
  const count = o.sightings.length
  const { seen, haveMore } = wordingOf(method)
  if (scatter.redundancy < 0.5)
    return [`${count} ${seen} fix the rate with nothing left to check it by. ${haveMore(fewestSightings)}`]
  if (count >= fewestSightings && scatter.redundancy >= fewestRedundant) return []
  return [`${count} ${seen} hardly check each other. ${haveMore(Math.max(fewestSightings, count + 1))}`]
}

function scattered({ scatter, method }: Estimate, o: Observations): string[] {
  const clickPx = o.clickPx ?? assumed.clickPx
  if (scatter.px <= plausibleScatter * clickPx) return []
  return [wordingOf(method).scatter(scatter.px.toFixed(1), clickPx.toFixed(1))]
}

function nearIts(band: Band, ceiling: Ceiling | null): string[] {
  if (!ceiling || band.highRpm <= nearCeiling * ceiling.rpm) return []
  const share = ((100 * band.highRpm) / ceiling.rpm).toFixed(0)
  return [
    `The band reaches ${share} % of the ceiling, ${ceiling.rpm.toFixed(0)} rpm (${limitWords[ceiling.limit]}).`,
  ]
}
