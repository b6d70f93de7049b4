/**
 * Holm's step-down correction: p-values that may each be held against one level while the chance of any
 * false find among them all stays below it, whatever their dependence. The smallest is multiplied by their
 * number n, the next by n − 1, and so on; none falls below the one before it nor rises above 1.
 *
 * Source: S. Holm, Scandinavian Journal of Statistics 6 (1979) 65.
 *
 * @returns in the order given
 * @example holm([0.01, 0.04, 0.03]) // [0.03, 0.06, 0.06]
 */
export function holm(p: readonly number[]): number[] {
  const adjusted = new Array<number>(p.length)
  let largest = 0
  const order = p.map((_, i) => i).sort((a, b) => p[a]! - p[b]!)
  for (const [step, i] of order.entries()) {
    largest = Math.max(largest, Math.min(1, (p.length - step) * p[i]!))
    adjusted[i] = largest
  }
  return adjusted
}
