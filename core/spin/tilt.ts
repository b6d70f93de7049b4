import { linearLeastSquares } from '../numerics/linear-least-squares.ts'
import { assumed } from './assumptions.ts'
import type { Estimate } from './estimate.ts'
import type { Observations } from './observations.ts'
import { phaseWeights, withoutLine } from './phase-residuals.ts'

export type Tilt = {
  /** Tilt of the axis from the line of sight that the waves speak of, radians; null when they are no more than scatter. */
  tiltRad: number | null
  /** What the tilt, shown or not ruled out, can do to the rate; standard uncertainty, rad/s. */
  rateUncertainty: number
}

/** χ² with two degrees of freedom at 99.9 %. */
const certain = 13.8

/**
 * What the residuals of a bearing fit say about its assumption that the axis faces the camera.
 *
 * Tilted by a small θ, the circle of a mark at height h over the picture (h = √(r² − ρ²)) is shifted by
 * h·θ, as if its centre were: a wave once a turn. It is flattened by θ²/2: a wave of θ²/4 twice a turn. A
 * direction that rises out of the picture with slope s waves once a turn by s·θ.
 *
 * The amplitudes a are estimated from the residuals r, held by what tilt is thought possible beforehand
 * (Bayesian least squares: precision P = DᵀWD + Σ₀⁻¹, a = P⁻¹DᵀWr; D the waves, what offsets and slope
 * can take of them taken out). The fit without waves answers to them by G = leverageᵀ·D₀, so its rate is
 * uncertain by √(GᵀP⁻¹G + (Gᵀa)²). Over whole turns G vanishes, over a part of one it does not.
 *
 * @param priorRad standard uncertainty of each component of the tilt before looking
 */
export function tiltOf(estimate: Estimate, o: Observations, priorRad: number): Tilt {
  const { sightings } = estimate
  const waves = wavesOf(estimate, o, priorRad)
  const weights = phaseWeights(estimate)
  const leftOver = waves.map(wave => withoutLine(wave.values, weights, estimate, o))
  // One row a sighting, then one row a wave that says how large it may be.
  const design = [
    ...sightings.flatMap((_, k) => leftOver.map(values => Math.sqrt(weights[k]!) * values[k]!)),
    ...waves.flatMap((_, i) => waves.map((wave, j) => (i === j ? 1 / wave.prior : 0))),
  ]
  const seen = [
    ...sightings.map((fit, k) => Math.sqrt(weights[k]!) * fit.phaseResidualRad),
    ...waves.map(() => 0),
  ]
  const fit = linearLeastSquares(design, seen, waves.length)
  if (!fit) return { tiltRad: null, rateUncertainty: 0 }
  const answer = waves.map(wave =>
    sightings.reduce((sum, one, k) => sum + one.ratePerPhaseRad * wave.values[k]!, 0),
  )
  let variance = 0
  let shift = 0
  answer.forEach((own, i) => {
    shift += own * fit.coefficients[i]!
    answer.forEach((other, j) => {
      variance += own * fit.covariance[i * waves.length + j]! * other
    })
  })
  return {
    tiltRad: tiltShown(waves, fit.coefficients, fit.covariance),
    rateUncertainty: Math.hypot(Math.sqrt(Math.max(variance, 0)), shift),
  }
}

/** One shape of residuals for one unit of amplitude: of tilt for points, of the wave itself for directions. */
type Wave = { kind: 'once' | 'direction' | 'twice'; values: Float64Array; prior: number }

function wavesOf({ sightings }: Estimate, o: Observations, priorRad: number): Wave[] {
  const n = sightings.length
  const wave = (kind: Wave['kind'], prior: number): Wave => ({ kind, prior, values: new Float64Array(n) })
  const once = [wave('once', priorRad), wave('once', priorRad)] as const
  const twice = [wave('twice', priorRad ** 2 / 2), wave('twice', priorRad ** 2 / 2)] as const
  const directions = new Map<number, readonly [Wave, Wave]>()
  sightings.forEach((fit, k) => {
    const sighting = o.sightings[k]!
    const outline = o.frames[sighting.frame]!.outline
    const bearing =
      sighting.kind === 'direction'
        ? sighting.bearingRad
        : Math.atan2(sighting.yPx - outline!.yPx, sighting.xPx - outline!.xPx)
    twice[0].values[k] = Math.cos(2 * bearing)
    twice[1].values[k] = Math.sin(2 * bearing)
    if (sighting.kind === 'point') {
      const height = Math.sqrt(Math.max(outline!.radiusPx ** 2 - fit.pxPerRad ** 2, 0))
      once[0].values[k] = (-height * Math.sin(bearing)) / Math.max(fit.pxPerRad, 1)
      once[1].values[k] = (height * Math.cos(bearing)) / Math.max(fit.pxPerRad, 1)
    } else {
      const prior = priorRad * assumed.directionSlope
      const own =
        directions.get(sighting.mark) ?? ([wave('direction', prior), wave('direction', prior)] as const)
      directions.set(sighting.mark, own)
      own[0].values[k] = Math.cos(bearing)
      own[1].values[k] = Math.sin(bearing)
    }
  })
  return [...once, ...twice, ...[...directions.values()].flat()]
}

/** The tilt behind waves that scatter does not explain. */
function tiltShown(waves: Wave[], amplitude: Float64Array, covariance: Float64Array): number | null {
  const q = waves.length
  const pairs = waves.flatMap((wave, i) => {
    if (i % 2 === 1) return []
    const [a, b] = [amplitude[i]!, amplitude[i + 1]!]
    const size = Math.hypot(a, b)
    const variance = (covariance[i * q + i]! + covariance[(i + 1) * q + i + 1]!) / 2
    return size ** 2 / variance > certain ? [{ kind: wave.kind, size }] : []
  })
  const once = pairs.find(pair => pair.kind === 'once')
  const twice = pairs.find(pair => pair.kind === 'twice')
  const direction = pairs.find(pair => pair.kind === 'direction')
  if (once) return once.size
  if (twice) return 2 * Math.sqrt(twice.size)
  return direction ? direction.size / assumed.directionSlope : null
}
