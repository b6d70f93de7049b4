import type { Marks } from '../contract/marks.ts'
import type { Band, Reading } from '../contract/reading.ts'
import { degOfRad } from '../units/angle.ts'
import { framesPerRevolutionOfRpm, rpmOfRadPerSecond } from '../units/rate.ts'
import { senseOfRate } from '../units/sense.ts'
import { bandLevel, bandOf } from './band.ts'
import { budgetOf } from './budget.ts'
import { ceilingOf } from './ceiling.ts'
import { budgetLineOf } from './contribution.ts'
import { countOf } from './count.ts'
import type { Estimate, NotMeasured } from './estimate.ts'
import { flagOf } from './flag.ts'
import type { Observations } from './observations.ts'
import { remarksOn } from './remarks.ts'
import { splitOnFlight } from './split-on-flight.ts'

/** An estimate as `whorl.reading/1` has it: with its budget, band, ceiling, flag and reasons. */
export function readingOf(marks: Marks, estimate: Estimate, o: Observations): Reading {
  const budget = budgetOf(estimate, o)
  const { standardUncertainty, degreesOfFreedom, halfWidth } = bandOf(budget)
  const rpm = Math.abs(rpmOfRadPerSecond(estimate.rateRadPerSecond))
  const band: Band = {
    lowRpm: Math.max(rpm - rpmOfRadPerSecond(halfWidth), 0),
    highRpm: rpm + rpmOfRadPerSecond(halfWidth),
    level: bandLevel,
  }
  const ceiling = ceilingOf(estimate, o)
  const { flag, reasons } = flagOf(estimate, band, ceiling, o)
  const split = splitOnFlight(estimate, o)
  return {
    ...windowOf(marks),
    method: estimate.method,
    rpm,
    sense: senseOf(estimate),
    band,
    standardUncertaintyRpm: rpmOfRadPerSecond(standardUncertainty),
    effectiveDof: Number.isFinite(degreesOfFreedom) ? degreesOfFreedom : null,
    axis: axisOf(estimate),
    parts: split.parts,
    rotationPerFrameDeg: degOfRad(Math.abs(estimate.rateRadPerSecond) / o.capture.fps),
    framesPerRevolution: rpm > 0 ? framesPerRevolutionOfRpm(rpm, o.capture.fps) : null,
    flag,
    reasons: [...reasons, ...remarksOn(marks, estimate, o), ...split.reasons],
    ceiling,
    candidates: estimate.candidates.map(({ rateRadPerSecond, support, plausible }) => ({
      rpm: Math.abs(rpmOfRadPerSecond(rateRadPerSecond)),
      sense: senseOfRate(rateRadPerSecond),
      support,
      plausible,
    })),
    counted: countOf(estimate.rateRadPerSecond, o),
    budget: budget.map(budgetLineOf),
    framesUsed: new Set(o.sightings.map(sighting => sighting.frame)).size,
  }
}

/** What a reading that could not be made says: where, by which method, and why not. */
export type Unread = Pick<Reading, 'window' | 'method' | 'flag' | 'reasons' | 'framesUsed'>

/** A reading without a figure. */
export const unread = (said: Unread): Reading => ({
  rpm: null,
  sense: null,
  band: null,
  standardUncertaintyRpm: null,
  effectiveDof: null,
  axis: null,
  parts: null,
  rotationPerFrameDeg: null,
  framesPerRevolution: null,
  ceiling: null,
  candidates: [],
  counted: null,
  budget: [],
  flight: null,
  ...said,
})

/** A reading that could not be made from marks: the reason and the way out in its `reasons`. */
export const unreadOf = (marks: Marks, { reason, tip, contradictory }: NotMeasured): Reading =>
  unread({
    window: windowOf(marks).window,
    method: 'bearing',
    flag: contradictory ? 'ambiguous' : 'too-few-frames',
    reasons: [reason, tip],
    framesUsed: marks.frames.filter(frame => frame.seen.length > 0).length,
  })

/** What every reading has; the flight is filled in where the ball's path is known in metres. */
function windowOf({ frames }: Marks): Pick<Reading, 'window' | 'flight'> {
  const indices = frames.map(frame => frame.index)
  const window = { fromFrame: Math.min(...indices), toFrame: Math.max(...indices) }
  return { window: frames.length > 0 ? window : { fromFrame: 0, toFrame: 0 }, flight: null }
}

/** As the camera sees it; null for an axis across the line of sight, which turns neither way. */
function senseOf({ rotationRadPerSecond: [x, y, z], axisUncertaintyRad, rateRadPerSecond }: Estimate) {
  const overEdge = Math.atan2(Math.abs(z), Math.hypot(x, y))
  return overEdge < 2 * (axisUncertaintyRad ?? 0) ? null : senseOfRate(rateRadPerSecond)
}

/** Where both components of an axis's error are normal and alike, 95 % of angles lie within √(−ln 0.05) of their rms. */
const evenConeShare = Math.sqrt(-Math.log(0.05))

/** Unit vector of the rotation; null where the method takes the axis to face the camera. */
function axisOf({
  rotationRadPerSecond: [x, y, z],
  axisUncertaintyRad,
  axisConeRad,
}: Estimate): Reading['axis'] {
  const length = Math.hypot(x, y, z)
  if (axisUncertaintyRad === null || length === 0) return null
  return {
    x: x / length,
    y: y / length,
    z: z / length,
    tiltDeg: degOfRad(Math.atan2(Math.hypot(x, y), z)),
    uncertaintyDeg: degOfRad(axisUncertaintyRad),
    coneDeg: degOfRad(axisConeRad ?? evenConeShare * axisUncertaintyRad),
  }
}
