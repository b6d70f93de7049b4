import type { Random } from './seeded-random.ts'

/**
 * One draw from Student's t by the polar way, √(ν(u^(−2/ν) − 1))·cos(2πv); degrees of freedom need not be
 * whole, and infinity gives the normal law as its limit, √(−2·ln u)·cos(2πv).
 *
 * Source: R. Bailey, Mathematics of Computation 62 (1994) 779.
 */
export function randomStudentT(random: Random, degreesOfFreedom: number): number {
  const log = -2 * Math.log(1 - random())
  const squared = Number.isFinite(degreesOfFreedom)
    ? degreesOfFreedom * Math.expm1(log / degreesOfFreedom)
    : log
  return Math.sqrt(squared) * Math.cos(2 * Math.PI * random())
}
