/**
 * The angle nearest to 0 that differs from the given one by whole periods: in [−period/2, period/2].
 * Period 2π unless said; a mark of symmetry order m has period 2π/m.
 */
export function wrapAngle(rad: number, period: number = 2 * Math.PI): number {
  return rad - period * Math.round(rad / period)
}
