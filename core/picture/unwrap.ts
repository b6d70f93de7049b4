/** The angle nearest to `near` that looks the same: it differs by whole repeats. All in degrees. */
export const nearest = (deg: number, near: number, repeatDeg: number): number =>
  deg - repeatDeg * Math.round((deg - near) / repeatDeg)

/**
 * The start of a line of given slope that fits folded angles best: their mean direction once the slope is
 * taken off, angles a repeat apart counting as the same. Degrees, seconds.
 */
export function startOfLine(
  points: readonly { timeSeconds: number; deg: number; weight: number }[],
  degPerSecond: number,
  repeatDeg: number,
): number {
  const fold = (2 * Math.PI) / repeatDeg
  let x = 0
  let y = 0
  for (const { timeSeconds, deg, weight } of points) {
    const angle = (deg - degPerSecond * timeSeconds) * fold
    x += weight * Math.cos(angle)
    y += weight * Math.sin(angle)
  }
  return Math.atan2(y, x) / fold
}
