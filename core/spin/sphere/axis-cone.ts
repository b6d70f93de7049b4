import { chiSquareQuantile } from '../../numerics/chi-square.ts'
import { studentT } from '../../numerics/student-t.ts'
import { bandLevel } from '../band.ts'

/** Quantile of the normal law at 95 %. */
const normal95 = 1.6449

/**
 * Half-angle, radians, of the cone about an axis that holds the true one at 95 %, for errors of variances a and b
 * along the half axes of their ellipse.
 *
 * The squared angle is a·χ²₁ + b·χ²₁, taken as g·χ²_ν with the same mean and variance: g = (a² + b²)/(a + b),
 * ν = (a + b)²/(a² + b²). Right for a = b and for b = 0, within 2 % between. Where the scatter itself is known
 * from few residuals, it widens as Student's t does.
 *
 * Source: Satterthwaite, Biometrics Bulletin 2 (1946) 110.
 */
export function axisCone([a, b]: readonly [number, number], degreesOfFreedom: number): number {
  const sum = a + b
  const squares = a * a + b * b
  const quantile = chiSquareQuantile(normal95, (sum * sum) / squares)
  const widening =
    studentT((1 + bandLevel) / 2, degreesOfFreedom) / studentT((1 + bandLevel) / 2, Number.POSITIVE_INFINITY)
  return Math.sqrt((squares / sum) * quantile) * widening
}
