/**
 * Quantile of χ² by Wilson and Hilferty's cube: ν(1 − 2/(9ν) + z√(2/(9ν)))³, z the same quantile of the
 * normal law. Within 3 % from ν = 2 on for z = ±2.326 (1 % and 99 %) at the upper side, good for a test
 * of consistency, not for a band.
 *
 * Source: Wilson and Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684.
 *
 * @example chiSquareQuantile(2.326, 10) // 23.2
 */
export function chiSquareQuantile(z: number, degreesOfFreedom: number): number {
  const part = 2 / (9 * degreesOfFreedom)
  return degreesOfFreedom * Math.max(1 - part + z * Math.sqrt(part), 0) ** 3
}
