import { radOfDeg } from '../units/angle.ts'

/**
 * What Whorl assumes where nobody says. Each stands in the budget or in a reason of every reading that
 * rests on it. Common practice, no source, unless said.
 */
export const assumed = {
  /** The strongest topspin in paddle tests lies near 2300 rpm; twice that is out of reach. */
  maxRpm: 5000,
  /** Standard uncertainty of a click, px a coordinate. */
  clickPx: 1.5,
  /** How well that is known: within 25 %, which counts as 8 degrees of freedom (JCGM 100:2008, G.4.2). */
  clickDegreesOfFreedom: 8,
  /** A click error from a person's own study: within 10 %, so 50 degrees of freedom (the same clause). */
  statedClickDegreesOfFreedom: 50,
  /** Standard uncertainty of a direction judged by eye where no outline gives a radius. */
  directionRad: radOfDeg(3),
  /** 240 fps is often 240/1.001: half-width 0.1 % of a rectangular law (JCGM 100:2008, 4.3.7). */
  captureRelative: 0.001 / Math.sqrt(3),
  /** A readout time is known to a tenth. */
  readoutRelative: 0.1,
  /**
   * A readout that nobody knows, in frame intervals: anything between none and all of one. It is the same for all
   * hits of a camera, so a band must hold for whichever it is, not for most of them: half the width counts as one
   * standard uncertainty, as for the two ends of the range alone (√Σ(x − mean)²/2), not as 1/√12.
   */
  readoutIntervals: 0.5,
  readoutIntervalsUncertainty: 0.5,
  /** Tangent of half the field of view where nobody knows the lens: 48° across; 31° to 64° within one uncertainty. */
  viewTangent: 0.45,
  viewTangentUncertainty: 0.17,
  /** Soft ends of a streak: its arc is true to this share. */
  smearRelative: 0.15,
  /** Spin lost in flight, share a second: standard uncertainty. */
  decayPerSecond: 0.05,
  /** Tilt of an axis that is taken to face the camera: standard uncertainty of each component. */
  tiltRad: radOfDeg(25),
  /** Slope out of the picture of a logo's own direction, rise over run. */
  directionSlope: 0.4,
} as const

/** A candidate whose likelihood is below this share of the best one's is clearly worse. */
export const clearlyWorseSupport = 1e-4

/** Rounding of a click to whole pixels (JCGM 100:2008, 4.3.7): no scatter is smaller. */
export const pixelGridPx = 1 / Math.sqrt(12)
