import type { Method } from '../contract/reading.ts'
import type { Vector } from '../geometry/vector.ts'
import type { Observations } from './observations.ts'

/**
 * One way of reading the spin from what was seen. All estimators have this shape.
 *
 * `nearRadPerSecond` (signed, clockwise positive) asks for the candidate nearest to it instead of the
 * best: a person, or evidence from outside, has chosen.
 */
export type Estimator = (o: Observations, nearRadPerSecond?: number) => Estimate | NotMeasured

/** "Cannot be measured" is a value with a reason and a way out. */
export type NotMeasured = {
  measured: false
  reason: string
  tip: string
  /** True when there is enough to go by, but it does not agree with itself. */
  contradictory?: boolean
}

/** A rate that explains the marks; from a search, so there may be several. */
export type RateCandidate = {
  /** Signed: clockwise as the camera sees it (rotation vector z > 0) is positive. */
  rateRadPerSecond: number
  /** 1 for the best explained, falling with the likelihood (the ratio to the best). */
  support: number
  /** Inside the plausible rates, and of the known sense where one is known. */
  plausible: boolean
}

/**
 * How one sighting stands in the fit; as many and in the order of `Observations.sightings`.
 *
 * "Phase" is the angle turned about the axis: how far the ball would have to turn, rate held, to bring
 * the model to the sighting. A time error dt is the phase error −rate·dt. The `rate per …` numbers
 * are the row of the least-squares solution, ∂rate/∂input, robust weights included: every line of the
 * budget is made from them.
 */
export type SightingFit = {
  /** When the mark was seen: frame time plus readout to its row. */
  timeSeconds: number
  /** Distance between sighting and model; null for a direction that has no radius to measure it at. */
  residualPx: number | null
  /** Seen minus modelled, along the way that the mark moves. */
  phaseResidualRad: number
  /** Pixels that the mark moves for a radian of phase (information on phase goes with its square). */
  pxPerRad: number
  /** The way that the mark moves in the picture, unit vector; (0, 0) for a direction. */
  way: readonly [x: number, y: number]
  /** Of the robust loss: 1 trusted in full, 0 not used. */
  weight: number
  /** ∂rate/∂(position of this sighting), rad/s a pixel; 0 for a direction. */
  ratePerXPx: number
  ratePerYPx: number
  /** ∂rate/∂(outline radius in this sighting's frame), rad/s a pixel. */
  ratePerRadiusPx: number
  /** ∂rate/∂(phase of this sighting), rad/s a radian. */
  ratePerPhaseRad: number
}

/** Where the model has one mark in one frame, for drawing. */
export type ModelledMark = {
  frame: number
  mark: number
  bearingRad: number
  /** Null when the method knows no position (bearings alone). */
  xPx: number | null
  yPx: number | null
  hidden: boolean
}

/** The scatter of the marks about the model, as one click's standard uncertainty a coordinate. */
export type Scatter = {
  px: number
  /** Residuals, a person's own study, or the value that Whorl assumes. */
  from: 'residuals' | 'stated' | 'assumed'
  degreesOfFreedom: number
  /** Residuals' own degrees of freedom; 0 means that nothing checks the figure. */
  redundancy: number
}

export type Estimate = {
  measured: true
  method: Method
  /** In camera axes; its length is the rate. For the bearing method (0, 0, ±rate). */
  rotationRadPerSecond: Vector
  /** Signed rate: length of the rotation vector, with the sign of its z. */
  rateRadPerSecond: number
  /** What the axis was allowed beforehand where the method assumes it, standard uncertainty a component. */
  tiltPriorRad?: number
  /** Root mean square angle between the axis and the true one; null when the method assumes the axis. */
  axisUncertaintyRad: number | null
  /** Half-angle of the cone about the axis that holds the true one at 95 %, where the method knows its shape. */
  axisConeRad?: number
  scatter: Scatter
  /**
   * Of the rate, from the scatter alone. Where residuals gave the scatter, of all that differs from sighting
   * to sighting (clicks, pixel grid, smear, tick); where a click error was stated, of the clicks.
   */
  scatterUncertaintyRadPerSecond: number
  /** Best first, the chosen one included; mirrored axes count as candidates. */
  candidates: RateCandidate[]
  sightings: SightingFit[]
  modelled: ModelledMark[]
  /** Change of rate, rad/s², where the fit let it change; the rate is then the one at the first sighting. */
  changeRadPerSecond2?: number
  /** What outlines, and errors of theirs that drift, leave in the rate, standard uncertainty; the method's own reckoning. */
  outlineRadPerSecond?: number
  /** What the readout leaves in the rate, standard uncertainty; the method's own reckoning. */
  readoutRadPerSecond?: number
  /** What a focal length that is not known leaves in the rate, standard uncertainty; the method's own reckoning. */
  lineOfSightRadPerSecond?: number
  /** What a pattern that does not lie on the surface leaves in the rate, standard uncertainty; for methods that read the pattern. */
  patternRadPerSecond?: number
  /** An assumption that nothing in the data checks, in plain words: such a reading is not clear. */
  unchecked?: string
  /** What the method itself has to say, in plain words with numbers. */
  remarks: string[]
}
