/**
 * The loss that belongs to `robustWeight`: size² up to `corner`, and never more than 5·corner². `size` is
 * a residual in units of its standard uncertainty. Its slope is 2·weight·size.
 *
 * Source: Hampel, Ronchetti, Rousseeuw and Stahel, Robust Statistics (1986), 2.6, equation (2.6.2), summed up.
 */
export function robustLoss(size: number, corner: number): number {
  const t = Math.abs(size)
  if (t <= corner) return t * t
  if (t <= 2 * corner) return 2 * corner * t - corner * corner
  const left = Math.max(4 * corner - t, 0)
  return 5 * corner * corner - (left * left) / 2
}
