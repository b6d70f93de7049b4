import type { Whitening } from './model.ts'
import type { Sights } from './sights.ts'
import type { Misfit } from './state.ts'

/** What errors are expected, as standard uncertainties. Order of the arrays: points, then directions. */
export type Noise = {
  /** One coordinate of a click (or the arc of a direction along the rim), px. */
  clickPx: number
  /** Of a frame's time: the mark has turned by more or less than was taken. */
  tickSeconds: number
  /** Of the moment within the exposure that was clicked: the mark has turned, and flown with the ball, on. */
  smearSeconds: Float64Array
  /** The same for all: what a smear of unknown length adds. */
  openSmearSeconds: number
  /** Of the robust loss: an error is taken to be larger by 1/√weight. */
  weights: Float64Array
}

/** Below this a sighting says nothing any more. */
const leastWeight = 1e-9

/**
 * V = click²·I + tick²·ttᵀ + smear²·ssᵀ, px²: xx, xy, yy a sighting (of a direction xx alone counts), t the mark's
 * velocity by the turning, s that of the mark in the picture. `weights` null takes every click as not doubted.
 */
function covariancesOf(
  { points, velocity }: Sights,
  misfit: Misfit,
  rate: number,
  noise: Noise,
  weights: Float64Array | null,
): Float64Array {
  const n = misfit.x.length
  const covariances = new Float64Array(3 * n)
  const tick = noise.tickSeconds ** 2
  const openSmear = noise.openSmearSeconds ** 2
  for (let i = 0; i < n; i++) {
    const certainty = weights ? Math.max(weights[i]!, leastWeight) : 1
    const click = (noise.clickPx / misfit.showing[i]!) ** 2 / certainty
    const smear = noise.smearSeconds[i]! ** 2 + openSmear
    const tx = rate * misfit.wayX[i]!
    const ty = rate * misfit.wayY[i]!
    const flies = i < points.length ? 1 : 0
    const sx = tx + flies * velocity.x
    const sy = ty + flies * velocity.y
    covariances[3 * i] = click + tick * tx * tx + smear * sx * sx
    covariances[3 * i + 1] = tick * tx * ty + smear * sx * sy
    covariances[3 * i + 2] = click + tick * ty * ty + smear * sy * sy
  }
  return covariances
}

/**
 * The whitening for errors of this noise, in the state that the misfit and the rate stand for: V^(−½), which for
 * a 2 × 2 matrix is √V turned round, √V = (V + d·I)/√(tr V + 2d) with d = √det V (Cayley and Hamilton).
 */
export function whiteningOf(
  sights: Sights,
  misfit: Misfit,
  rate: number,
  noise: Noise,
  shared: number[],
): Whitening {
  const n = sights.points.length
  const points = new Float64Array(3 * n)
  const directions = new Float64Array(sights.directions.length)
  const covariances = covariancesOf(sights, misfit, rate, noise, noise.weights)
  for (let i = 0; i < n + directions.length; i++) {
    const xx = covariances[3 * i]!
    const xy = covariances[3 * i + 1]!
    const yy = covariances[3 * i + 2]!
    if (i >= n) {
      directions[i - n] = 1 / Math.sqrt(xx)
      continue
    }
    const d = Math.sqrt(xx * yy - xy * xy)
    const scale = 1 / (d * Math.sqrt(xx + yy + 2 * d))
    points[3 * i] = scale * (yy + d)
    points[3 * i + 1] = -scale * xy
    points[3 * i + 2] = scale * (xx + d)
  }
  return { points, directions, oneSided: 1 / noise.clickPx, shared }
}

/**
 * Σ of squared errors, each over its variance, and the size of each sighting's whole error (for the robust loss).
 * ln of the variances is taken without weights, and sizes are: no gain in doubting a sighting.
 */
export function standardised(
  sights: Sights,
  misfit: Misfit,
  rate: number,
  noise: Noise,
): { sumOfSquares: number; logVariances: number; sizes: Float64Array } {
  const n = misfit.x.length
  const sizes = new Float64Array(n)
  const isDoubted = noise.weights.some(weight => weight < 1)
  const plain = covariancesOf(sights, misfit, rate, noise, null)
  const weighed = isDoubted ? covariancesOf(sights, misfit, rate, noise, noise.weights) : plain
  let sumOfSquares = 0
  let logVariances = 0
  for (let i = 0; i < n; i++) {
    const isPoint = i < sights.points.length
    const square = squareOf(misfit.x[i]!, misfit.y[i]!, weighed, i, isPoint)
    sumOfSquares += square
    logVariances += Math.log(isPoint ? determinantOf(plain, i) : plain[3 * i]!)
    sizes[i] = Math.sqrt(square / Math.max(noise.weights[i]!, leastWeight))
  }
  return { sumOfSquares, logVariances, sizes }
}

const determinantOf = (covariances: Float64Array, i: number): number =>
  covariances[3 * i]! * covariances[3 * i + 2]! - covariances[3 * i + 1]! ** 2

/** One sighting's error over its variance, squared. */
function squareOf(x: number, y: number, covariances: Float64Array, i: number, isPoint: boolean): number {
  const xx = covariances[3 * i]!
  if (!isPoint) return (x * x) / xx
  const xy = covariances[3 * i + 1]!
  return (covariances[3 * i + 2]! * x * x - 2 * xy * x * y + xx * y * y) / determinantOf(covariances, i)
}
