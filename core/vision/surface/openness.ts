import { linearLeastSquares } from '../../numerics/linear-least-squares.ts'

/**
 * How open a fit leaves its last unknown, column `last` of a design whose rows were divided by their uncertainties:
 * the variance by the scatter of `y`, and the variance with what errors of known shape (`waves`, in the rows' units)
 * would move it by. Null where the columns leave it open altogether.
 */
export function opennessOf(
  design: readonly number[],
  y: readonly number[],
  waves: readonly (readonly number[])[],
  last: number,
): { ofScatter: number; variance: number } | null {
  const p = last + 1
  const free = linearLeastSquares(design, y, p)
  if (!free) return null
  const ofScatter = free.covariance[last * p + last]!
  const moved = waves.map(wave => linearLeastSquares(design, wave, p)!.coefficients[last]!)
  return { ofScatter, variance: ofScatter + moved.reduce((sum, one) => sum + one * one, 0) }
}
