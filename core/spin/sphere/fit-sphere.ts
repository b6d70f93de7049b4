import { angleBetween } from '../../geometry/vector.ts'
import { degOfRad } from '../../units/angle.ts'
import { rankCandidates } from '../alias.ts'
import { assumed } from '../assumptions.ts'
import type { Estimate, Estimator, NotMeasured } from '../estimate.ts'
import type { Observations } from '../observations.ts'
import { bendOf } from './bend.ts'
import { type Contender, compete } from './compete.ts'
import { startsFromDirections } from './direction-starts.ts'
import { depthUncertainty, uncertaintiesOf } from './gains.ts'
import type { Expected } from './learn.ts'
import { reportOf, signedRate } from './report.ts'
import { type Sights, sightsOf } from './sights.ts'
import { startsFromPoints } from './starts.ts'

/** Beyond this the axis is not known well enough for the errors of a fit to be straight-line ones. */
const looseAxisRad = 0.5

/** Nor is the rate, when it is open this much wider than straight lines say, or known to this share only. */
const mostBend = 2
const looseRateShare = 0.15

/**
 * A vector on the ball and its opposite show bearings half a turn apart from wherever one looks; no three
 * directions on a tilted ball show bearings a third of a turn apart all through a turn.
 */
const mostRepeatsOfLine = 2

/** How firmly a stated click error stands for all scatter: outlines and surfaces add to it. */
const statedDegreesOfFreedom = 10

/**
 * Rotation vector and each mark's place from all that was seen of them, for an axis in any direction:
 * a wide search over axes and rates, then robust least squares in the picture (method.md, "Fitting on
 * the sphere"). A mark that was hidden must be hidden in the fit.
 */
export const fitSphere: Estimator = (o, nearRadPerSecond) => {
  const sights = sightsOf(o)
  const poor = tooPoor(sights)
  if (poor) return poor
  const search = sights.points.length > 0 ? startsFromPoints : startsFromDirections
  const maxRate = o.plausible.maxRateRadPerSecond
  const starts = search(sights, maxRate, startCount(sights))
  const contenders = compete(sights, starts, expectedOf(o, sights), maxRate).map(contender => ({
    ...contender,
    rateRadPerSecond: signedRate(contender.state.rotation),
    senseIsOpen: isSenseOpen(contender),
  }))
  const candidates = rankCandidates(contenders, o)
  const wanted = nearRadPerSecond ?? candidates[0]?.rateRadPerSecond
  if (wanted === undefined) return notMeasured('No rotation brings the marks together.')
  const chosen = contenders.toSorted(
    (a, b) => Math.abs(a.rateRadPerSecond - wanted) - Math.abs(b.rateRadPerSecond - wanted),
  )[0]!
  if (!chosen.leastSquares.covariance) {
    return notMeasured('The marks stay on one line of the ball: the axis cannot be told.')
  }
  const expectedAxisRad = uncertaintiesOf(chosen).axisRad
  if (!(expectedAxisRad < looseAxisRad)) return looseAxis(expectedAxisRad)
  const bend = bendOf(sights, chosen)
  const report = reportOf(o, sights, chosen, bend)
  // Where marks scatter more than was expected, the axis is known worse than was expected.
  if (!(report.axisUncertaintyRad! < looseAxisRad)) return looseAxis(report.axisUncertaintyRad!)
  const { scatterUncertaintyRadPerSecond, outlineRadPerSecond = 0, rateRadPerSecond } = report
  const share = Math.hypot(scatterUncertaintyRadPerSecond, outlineRadPerSecond) / Math.abs(rateRadPerSecond)
  if (bend > mostBend || share > looseRateShare) {
    const known = Math.min(Math.round(100 * share), 100)
    return notMeasured(`The marks move over too little of the ball: the rate is known to ${known} % only.`)
  }
  return withRivalAxes({ ...report, candidates }, chosen, contenders)
}

/** An axis no further from the picture than two standard uncertainties may point either way through it. */
function isSenseOpen(contender: Contender): boolean {
  return Math.abs(contender.state.rotation[2]) < 2 * depthUncertainty(contender)
}

/** A likelihood this much lower (natural logarithm) is 1 in 20: such an axis lies at the edge of a 95 % cone. */
const rivalLogLikelihood = -3

/** The estimate with its cone opened to mirrored axes, and others, that explain the marks as well. */
function withRivalAxes(estimate: Estimate, chosen: Contender, contenders: Contender[]): Estimate {
  const apart = contenders
    .filter(one => one.logLikelihood > chosen.logLikelihood + rivalLogLikelihood)
    .map(one => angleBetween(one.state.rotation, chosen.state.rotation))
  const away = Math.max(0, ...apart)
  const cone = estimate.axisConeRad!
  if (away <= cone) return estimate
  const words = `An axis ${degOfRad(away).toFixed(0)}° away explains the marks as well.`
  return {
    ...estimate,
    axisConeRad: Math.min(away + cone, Math.PI),
    remarks: [...estimate.remarks, words],
  }
}

/** Few sightings leave many basins open, and cost little each. */
const startCount = ({ points, directions }: Sights): number =>
  Math.min(Math.max(Math.round(600 / (points.length + directions.length)), 16), 60)

const notMeasured = (reason: string): NotMeasured => ({
  measured: false,
  reason,
  tip: 'Mark more frames, or a second mark far from the first.',
})

const looseAxis = (axisRad: number): NotMeasured => {
  const deg = degOfRad(Math.min(axisRad, Math.PI / 2)).toFixed(0)
  return notMeasured(`The marks move over too little of the ball: the axis is known to ${deg}° only.`)
}

function tooPoor({ points, directions, marks }: Sights): NotMeasured | null {
  const repeating = directions.find(s => marks[s.mark]!.symmetryOrder > mostRepeatsOfLine)
  if (repeating) {
    const times = marks[repeating.mark]!.symmetryOrder
    return notMeasured(
      `A direction that looks the same ${times} times a turn does so only on an axis that faces the camera.`,
    )
  }
  const frames = new Set([...points, ...directions].map(s => s.frame)).size
  if (frames < 3) {
    return notMeasured(
      `The marks are seen in ${frames} frame${frames === 1 ? '' : 's'}; an axis takes three.`,
    )
  }
  let numbers = 0
  marks.forEach((_, mark) => {
    const own =
      2 * points.filter(s => s.mark === mark).length + directions.filter(s => s.mark === mark).length
    numbers += Math.max(own - 2, 0)
  })
  if (numbers >= 3) return null
  return notMeasured('The marks are seen too seldom: one mark in three frames is the least.')
}

export function expectedOf(o: Observations, { points, directions }: Sights): Expected {
  const { tickSeconds, exposureSeconds } = o.capture
  const anywhere = 1 / Math.sqrt(12)
  return {
    clickPx: o.clickPx ?? assumed.clickPx,
    clickDegreesOfFreedom: o.clickPx === null ? 2 : statedDegreesOfFreedom,
    tickSeconds: (tickSeconds ?? 0) * anywhere,
    openSmearSeconds: exposureSeconds === null ? anywhere / o.capture.fps : 0,
    smearSeconds: Float64Array.from([...points, ...directions], s => {
      const sighting = o.sightings[s.sighting]!
      const isStreak = sighting.kind === 'point' && sighting.smearArcRad !== null
      return isStreak ? 0 : (exposureSeconds ?? 0) * anywhere
    }),
  }
}
