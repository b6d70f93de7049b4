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

/** Covariance of one sighting's error, px²: xx, xy, yy; of a direction xx alone counts. */
type Covariance = { xx: number; xy: number; yy: number }

/** Below this a sighting says nothing any more. */
const leastWeight = 1e-9

/** V = click²·I + tick²·ttᵀ + smear²·ssᵀ: t the mark's velocity by the turning, s that of the mark in the picture. */
function covarianceOf(
  { points, velocity }: Sights,
  misfit: Misfit,
  rate: number,
  noise: Noise,
  i: number,
  weight: number = noise.weights[i]!,
): Covariance {
  const click = (noise.clickPx / misfit.showing[i]!) ** 2 / Math.max(weight, leastWeight)
  const tick = noise.tickSeconds ** 2
  const smear = noise.smearSeconds[i]! ** 2 + noise.openSmearSeconds ** 2
  const [tx, ty] = [rate * misfit.wayX[i]!, rate * misfit.wayY[i]!]
  const flies = i < points.length ? 1 : 0
  const [sx, sy] = [tx + flies * velocity.x, ty + flies * velocity.y]
  return {
    xx: click + tick * tx * tx + smear * sx * sx,
    xy: tick * tx * ty + smear * sx * sy,
    yy: click + tick * ty * ty + smear * sy * sy,
  }
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
  for (let i = 0; i < n + directions.length; i++) {
    const { xx, xy, yy } = covarianceOf(sights, misfit, rate, noise, i)
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

/** Σ of squared errors, each over its variance, and the size of each sighting's whole error (for the robust loss). */
export function standardised(
  sights: Sights,
  misfit: Misfit,
  rate: number,
  noise: Noise,
): { sumOfSquares: number; logVariances: number; sizes: Float64Array } {
  const n = misfit.x.length
  const sizes = new Float64Array(n)
  let sumOfSquares = 0
  let logVariances = 0
  for (let i = 0; i < n; i++) {
    const [x, y] = [misfit.x[i]!, misfit.y[i]!]
    const isPoint = i < sights.points.length
    const { xx, xy, yy } = covarianceOf(sights, misfit, rate, noise, i)
    const square = isPoint ? (yy * x * x - 2 * xy * x * y + xx * y * y) / (xx * yy - xy * xy) : (x * x) / xx
    sumOfSquares += square
    // A doubted sighting costs what it would if it were not doubted: no gain in doubting.
    const plain = covarianceOf(sights, misfit, rate, noise, i, 1)
    logVariances += Math.log(isPoint ? plain.xx * plain.yy - plain.xy ** 2 : plain.xx)
    sizes[i] = Math.sqrt(square / Math.max(noise.weights[i]!, leastWeight))
  }
  return { sumOfSquares, logVariances, sizes }
}
