/**
 * Where a parabola through three evenly spaced values has its peak, in steps from the middle one: within
 * ±1/2 when the middle one is the largest. 0 when the three lie on a line.
 *
 * @example parabolaPeak(0, 1, 1) // 0.5
 */
export function parabolaPeak(before: number, middle: number, after: number): number {
  const curvature = before - 2 * middle + after
  return curvature < 0 ? (before - after) / (2 * curvature) : 0
}
