import { commonSlope } from '../numerics/common-slope.ts'
import { robustScale, robustWeight } from '../numerics/robust-weight.ts'
import { wrapAngle } from '../numerics/wrap-angle.ts'
import { pixelGridPx } from './assumptions.ts'
import type { Bearings } from './bearings-of.ts'

/** A straight line through the unwrapped bearings of each mark: one slope for all, an offset each. */
export type BearingFit = {
  rateRadPerSecond: number
  /** Bearing of each mark at time 0. */
  offsetRad: Float64Array
  /** Seen minus line, within ± half a period. */
  residualRad: Float64Array
  /** Information of each sighting on its bearing, px²/rad², before the robust weight. */
  information: Float64Array
  /** Of the robust loss, 0 to 1. */
  weight: Float64Array
  /** ∂rate/∂bearing, rad/s a radian. */
  leverage: Float64Array
  /** Σ weight·information·(t − t̄)²: the rate's variance is the scatter's, px², over this. */
  spread: number
  /** Σ weight·information·residual². */
  sumOfSquaresPx2: number
  /** Σ weight − parameters. */
  redundancy: number
}

export type FitOptions = {
  /** Standard uncertainty of each time on its own (a tick's rounding). */
  timeErrorSeconds: number
  /** What a click error is about, to weigh time errors against. */
  clickPx: number
  /** Residual, in units of the scatter, from which a sighting is doubted; infinite for plain least squares. */
  corner: number
}

const mostPasses = 12

/**
 * Robust weighted least squares of bearing(k) = offset(mark) + rate·t(k), modulo the mark's period, from
 * a start near enough to unwrap by. Null when no mark was seen at two times.
 *
 * Minimises Σ weight·information·residual² with information ρ², for a click error makes a bearing error
 * σ/ρ. A time error τ makes another, rate·τ: 1/information = 1/ρ² + (rate·τ/σ)².
 * Every pass unwraps by the line before it, solves for the line, and weighs the residuals anew.
 */
export function fitBearings(b: Bearings, startRate: number, options: FitOptions): BearingFit | null {
  const marks = Math.max(...b.mark) + 1
  const fit = startAt(b, startRate, marks)
  const weights = new Float64Array(b.count)
  for (let pass = 0; pass < mostPasses; pass++) {
    for (let k = 0; k < b.count; k++) {
      fit.information[k] =
        1 /
        (1 / b.pxPerRad[k]! ** 2 + ((fit.rateRadPerSecond * options.timeErrorSeconds) / options.clickPx) ** 2)
      weights[k] = fit.weight[k]! * fit.information[k]!
    }
    const line = commonSlope(b.timeSeconds, fit.residualRad, weights, b.mark, marks)
    if (!line) return null
    fit.rateRadPerSecond += line.slope
    for (let mark = 0; mark < marks; mark++) fit.offsetRad[mark]! += line.offsets[mark]!
    fit.leverage = line.leverage
    fit.spread = line.spread
    const turnedRad = setResiduals(b, fit)
    const reweighed = reweigh(b, fit, options.corner)
    if (turnedRad < 1e-10 && !reweighed) break
  }
  fit.sumOfSquaresPx2 = 0
  for (let k = 0; k < b.count; k++)
    fit.sumOfSquaresPx2 += fit.weight[k]! * fit.information[k]! * fit.residualRad[k]! ** 2
  return fit
}

/** Offsets by each mark's circular mean, so that nothing needs to be unwrapped yet. */
function startAt(b: Bearings, rateRadPerSecond: number, marks: number): BearingFit {
  const cosine = new Float64Array(marks)
  const sine = new Float64Array(marks)
  const offsetRad = new Float64Array(marks)
  for (let k = 0; k < b.count; k++) {
    const order = (2 * Math.PI) / b.periodRad[k]!
    const angle = order * (b.bearingRad[k]! - rateRadPerSecond * b.timeSeconds[k]!)
    cosine[b.mark[k]!]! += b.pxPerRad[k]! ** 2 * Math.cos(angle)
    sine[b.mark[k]!]! += b.pxPerRad[k]! ** 2 * Math.sin(angle)
    offsetRad[b.mark[k]!] = Math.atan2(sine[b.mark[k]!]!, cosine[b.mark[k]!]!) / order
  }
  const fit: BearingFit = {
    rateRadPerSecond,
    offsetRad,
    residualRad: new Float64Array(b.count),
    information: new Float64Array(b.count),
    weight: new Float64Array(b.count).fill(1),
    leverage: new Float64Array(b.count),
    spread: 0,
    sumOfSquaresPx2: 0,
    redundancy: 0,
  }
  setResiduals(b, fit)
  return fit
}

/** Residuals about the fit's line; answers the largest change, radians. */
function setResiduals(b: Bearings, fit: BearingFit): number {
  let largest = 0
  for (let k = 0; k < b.count; k++) {
    const line = fit.offsetRad[b.mark[k]!]! + fit.rateRadPerSecond * b.timeSeconds[k]!
    const residual = wrapAngle(b.bearingRad[k]! - line, b.periodRad[k]!)
    largest = Math.max(largest, Math.abs(residual - fit.residualRad[k]!))
    fit.residualRad[k] = residual
  }
  return largest
}

/** Sets weights and redundancy; true when a weight changed. The scatter is never taken below the pixel grid. */
function reweigh(b: Bearings, fit: BearingFit, corner: number): boolean {
  const px = new Float64Array(b.count)
  for (let k = 0; k < b.count; k++) px[k] = Math.sqrt(fit.information[k]!) * fit.residualRad[k]!
  const parameters = 1 + b.marksSeen
  const scale = Math.max(robustScale(px, parameters), pixelGridPx)
  let changed = false
  fit.redundancy = -parameters
  for (let k = 0; k < b.count; k++) {
    const weight = robustWeight(px[k]!, scale, corner)
    changed ||= Math.abs(weight - fit.weight[k]!) > 1e-6
    fit.weight[k] = weight
    fit.redundancy += weight
  }
  return changed
}
