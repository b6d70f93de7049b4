import type { PercentileDefinition } from '../contract/rating-rules.ts'

/**
 * What a percentile counts, for a value among n values of which B lie strictly below and E are equal to it
 * (itself included), in per cent:
 * - `strictly-below`: the share of the others below, B/(n − 1). The lowest has 0, a lone highest 100; for
 *   distinct values the plotting position (k − 1)/(n − 1) of definition 7.
 * - `mid-rank`: (B + E/2)/n, ties shared evenly; (k − ½)/n, definition 5.
 * - `inclusive`: the share at or below, (B + E)/n. The highest has 100; k/n, definition 4.
 *
 * Source of the numbered definitions: R. Hyndman and Y. Fan, The American Statistician 50 (1996) 361.
 */
const shares: Record<PercentileDefinition, (below: number, upTo: number, n: number) => number> = {
  'strictly-below': (below, _, n) => below / (n - 1),
  'mid-rank': (below, upTo, n) => (below + upTo) / 2 / n,
  inclusive: (_, upTo, n) => upTo / n,
}

/** The percentile of each value among all of them, 0 to 100; null for one that has no others. */
export function percentiles(values: readonly number[], definition: PercentileDefinition): (number | null)[] {
  const sorted = values.toSorted((a, b) => a - b)
  const n = values.length
  return values.map(value => {
    const below = countWhile(sorted, other => other < value)
    const upTo = countWhile(sorted, other => other <= value)
    return n === 1 ? null : 100 * shares[definition](below, upTo, n)
  })
}

/** How many of the first ones hold, where the rest do not: by halving. */
function countWhile(sorted: readonly number[], holds: (value: number) => boolean): number {
  let [low, high] = [0, sorted.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (holds(sorted[middle]!)) low = middle + 1
    else high = middle
  }
  return low
}
