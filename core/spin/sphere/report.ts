import { heightOverRim, pixelOf } from '../../geometry/ball-view.ts'
import { length, type Vector } from '../../geometry/vector.ts'
import { degOfRad } from '../../units/angle.ts'
import type { Estimate, ModelledMark, Scatter, SightingFit } from '../estimate.ts'
import type { Observations } from '../observations.ts'
import { scatterOf } from '../scatter.ts'
import { axisCone } from './axis-cone.ts'
import { rateBySharedErrors, rateGains, uncertaintiesOf } from './gains.ts'
import { standardised } from './noise.ts'
import type { Solution } from './refine.ts'
import { growthOf, outlineError, placeError, readoutError, turningSeconds, viewError } from './shared.ts'
import type { Sights } from './sights.ts'
import { motionOf } from './state.ts'

/** Length of the rotation vector, positive where the camera sees it turn clockwise (z > 0). */
export const signedRate = (rotation: Vector): number => signOf(rotation) * length(rotation)
const signOf = (rotation: Vector): 1 | -1 => (rotation[2] < 0 ? -1 : 1)

/** A solution in the shape that all estimators share, but for the candidates it stands among. */
export function reportOf(
  o: Observations,
  sights: Sights,
  solution: Solution,
  bend: number,
): Omit<Estimate, 'candidates'> {
  const { state, noise } = solution
  const gains = rateGains(sights, solution)
  const { scatter, variance } = scatterAndVariance(o, sights, solution, gains)
  const bySharedErrors = rateBySharedErrors(solution)
  const { axisRad, axisVariances } = uncertaintiesOf(solution)
  // Residuals say how large errors are; the covariance holds what was expected of them.
  const grown = bend * Math.max(scatter.px / noise.clickPx, 1)
  const tilt = degOfRad(Math.acos(Math.min(Math.abs(state.rotation[2]) / length(state.rotation), 1)))
  return {
    measured: true,
    method: 'sphere',
    rotationRadPerSecond: state.rotation,
    rateRadPerSecond: signedRate(state.rotation),
    axisUncertaintyRad: grown * axisRad,
    axisConeRad: grown * axisCone(axisVariances, scatter.degreesOfFreedom),
    scatter,
    scatterUncertaintyRadPerSecond: bend * Math.sqrt(variance),
    outlineRadPerSecond: bend * Math.hypot(...bySharedErrors.slice(outlineError, placeError(0))),
    readoutRadPerSecond: bySharedErrors[readoutError]!,
    lineOfSightRadPerSecond: Math.hypot(bySharedErrors[viewError]!, ...bySharedErrors.slice(placeError(0))),
    sightings: sightingFits(o, sights, solution, gains),
    modelled: modelledMarks(sights, solution),
    remarks: [
      `The axis lies ${tilt.toFixed(0)}° from the line of sight, with a standard uncertainty of ${degOfRad(grown * axisRad).toFixed(1)}°.`,
    ],
  }
}

/** The scatter of the clicks, and what it and the time errors that residuals show make of the rate's variance. */
function scatterAndVariance(
  o: Observations,
  sights: Sights,
  { state, misfit, noise, redundancy }: Solution,
  gains: { x: Float64Array; y: Float64Array },
): { scatter: Scatter; variance: number } {
  const rate = length(state.rotation)
  const { points, directions, velocity } = sights
  const { sumOfSquares } = standardised(sights, misfit, rate, noise)
  const scatter = scatterOf(sumOfSquares * noise.clickPx ** 2, redundancy, o.clickPx)
  let clicks = 0
  let knownTimes = 0
  let openTimes = 0
  // The marks of a frame have its time in common, rounded once.
  const byTick = new Map<number, number>()
  noise.weights.forEach((weight, i) => {
    const showing = misfit.showing[i]!
    if (weight > 0) clicks += (gains.x[i]! ** 2 + gains.y[i]! ** 2) / (weight * showing * showing)
    const byTurning = (gains.x[i]! * misfit.wayX[i]! + gains.y[i]! * misfit.wayY[i]!) * rate
    const byFlight = i < points.length ? gains.x[i]! * velocity.x + gains.y[i]! * velocity.y : 0
    const bySmear = byTurning + byFlight
    const { frame } = points[i] ?? directions[i - points.length]!
    byTick.set(frame, (byTick.get(frame) ?? 0) + byTurning * noise.tickSeconds)
    knownTimes += (bySmear * noise.smearSeconds[i]!) ** 2
    openTimes += (bySmear * noise.openSmearSeconds) ** 2
  })
  for (const answer of byTick.values()) knownTimes += answer ** 2
  // Residuals show clicks and time errors together; their size scales both. A stated click is the clicks'
  // alone; known time errors have lines of their own in the budget, a smear of unknown length has none.
  const variance =
    scatter.from === 'residuals'
      ? (sumOfSquares / redundancy) * (clicks * noise.clickPx ** 2 + knownTimes + openTimes)
      : clicks * scatter.px ** 2 + openTimes
  // An unknown smear shows along the marks' ways only: in half of the residuals.
  const smearShare = openTimes / variance
  const halved = (1 - smearShare) ** 2 / scatter.degreesOfFreedom + (2 * smearShare ** 2) / redundancy
  return {
    scatter: { ...scatter, degreesOfFreedom: smearShare > 0 ? 1 / halved : scatter.degreesOfFreedom },
    variance,
  }
}

function sightingFits(
  o: Observations,
  { points, directions, originSeconds }: Sights,
  { state, misfit, noise }: Solution,
  gains: { x: Float64Array; y: Float64Array },
): SightingFit[] {
  const fits: SightingFit[] = []
  const sign = signOf(state.rotation)
  // Residuals are those of a steady rate: a change of it that the fit took up is to be seen in them.
  const bend = (length(state.rotation) * growthOf(state.shared)) / 2
  ;[...points, ...directions].forEach((s, i) => {
    const isPoint = i < points.length
    const [x, y] = [misfit.x[i]!, misfit.y[i]!]
    const [wx, wy] = [sign * misfit.wayX[i]!, sign * misfit.wayY[i]!]
    const way = wx * wx + wy * wy
    const [gx, gy] = [sign * gains.x[i]!, sign * gains.y[i]!]
    const outline = o.frames[s.frame]!.outline
    const seen = points[i]
    fits[s.sighting] = {
      timeSeconds: s.timeSeconds + originSeconds,
      residualPx: outline ? Math.hypot(x, y) : null,
      phaseResidualRad: way > 0 ? (x * wx + y * wy) / way + sign * bend * s.timeSeconds ** 2 : 0,
      pxPerRad: Math.sqrt(way),
      way: isPoint && way > 0 ? [wx / Math.sqrt(way), wy / Math.sqrt(way)] : [0, 0],
      weight: noise.weights[i]!,
      ratePerXPx: isPoint ? gx : 0,
      ratePerYPx: isPoint ? gy : 0,
      // A larger outline means that the same pixel lies nearer to the middle of the ball.
      ratePerRadiusPx:
        seen && outline
          ? -(gx * (seen.xPx - outline.xPx) + gy * (seen.yPx - outline.yPx)) / outline.radiusPx
          : 0,
      ratePerPhaseRad: gx * wx + gy * wy,
    }
  })
  return fits
}

function modelledMarks(sights: Sights, { state }: Solution): ModelledMark[] {
  const motion = motionOf(state)
  const growth = growthOf(state.shared)
  return sights.views.flatMap((view, i) => {
    const timeSeconds = sights.timesOfFrames[i]!
    return sights.marks.map(({ mark }, k): ModelledMark => {
      motion.move(k, turningSeconds({ timeSeconds, rowShare: 0 }, 0, growth), 0, false)
      const u = [...motion.u] as unknown as Vector
      const [xPx, yPx] = view ? pixelOf(view, u) : [null, null]
      const hidden = view ? heightOverRim(view, u) < 0 : u[2] > 0
      return { frame: i, mark, bearingRad: Math.atan2(u[1], u[0]), xPx, yPx, hidden }
    })
  })
}
