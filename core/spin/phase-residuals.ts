import { commonSlope } from '../numerics/common-slope.ts'
import { pixelGridPx } from './assumptions.ts'
import type { Estimate } from './estimate.ts'
import type { Observations } from './observations.ts'

/**
 * 1/variance of each phase residual, rad⁻²: a click of σ px is σ/pxPerRad of phase. The scatter is never
 * taken below the pixel grid, so that nothing made of rounding looks certain.
 */
export const phaseWeights = ({ sightings, scatter }: Estimate): Float64Array =>
  Float64Array.from(
    sightings,
    fit => (fit.weight * fit.pxPerRad ** 2) / Math.max(scatter.px, pixelGridPx) ** 2,
  )

/** A shape over the sightings without what each mark's offset and the common rate take of it. */
export function withoutLine(
  shape: Float64Array,
  weights: Float64Array,
  { sightings }: Estimate,
  o: Observations,
): Float64Array {
  const times = Float64Array.from(sightings, fit => fit.timeSeconds)
  const mark = Int32Array.from(o.sightings, sighting => sighting.mark)
  const line = commonSlope(times, shape, weights, mark, o.marks.length)
  return line ? shape.map((v, k) => v - line.offsets[mark[k]!]! - line.slope * times[k]!) : shape
}
