import { median } from './median.ts'

/**
 * Weight of a residual by Hampel's three-part loss: 1 up to `corner` (in units of the scale), then falling
 * so that its pull stays constant up to twice the corner, then falling to 0 at four times the corner.
 *
 * The flat middle leaves honest scatter untouched, so that the ordinary formulas for variance hold; only
 * what chance does not explain loses weight.
 *
 * Source: Hampel, Ronchetti, Rousseeuw and Stahel, Robust Statistics (1986), 2.6, equation (2.6.2).
 */
export function robustWeight(residual: number, scale: number, corner: number): number {
  const size = Math.abs(residual) / scale
  if (size <= corner) return 1
  if (size <= 2 * corner) return corner / size
  return size < 4 * corner ? (corner / size) * ((4 * corner - size) / (2 * corner)) : 0
}

/**
 * Scale of residuals about a fit from the median of their sizes: 1.4826·MAD, the standard deviation for a
 * normal law, and unmoved by outliers. `parameters` that the fit took are made up for.
 *
 * Source: Hampel et al. (1986), 2.3e; the factor is 1/Φ⁻¹(3/4).
 */
export function robustScale(residuals: ArrayLike<number>, parameters: number): number {
  const n = residuals.length
  const sizes = Float64Array.from(residuals, Math.abs).sort()
  // A fit with p parameters makes p residuals vanish or nearly so: leave them out of the median.
  const rest = n > parameters ? sizes.subarray(parameters) : sizes
  return 1.4826 * median(rest)
}
