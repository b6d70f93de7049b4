import type { Band } from '../contract/reading.ts'
import { holm } from '../numerics/holm.ts'
import { bandOfMean, differenceOf, type KnownMean, probabilityAbove } from './known-mean.ts'

/** How two paddles differ. Null where a single hit does not tell how its paddle's hits scatter. */
export type Comparison = {
  differenceRpm: number
  band: Band | null
  /** That A's mean lies above B's, nothing else being known of them. */
  probabilityAOverB: number | null
  /** Two-sided p of "no difference", after Holm over all pairs that were asked for together. */
  adjustedP: number | null
}

/**
 * Compares pairs of means that were asked for together. The chance that any difference with `adjustedP`
 * below 0.05 is none stays below 5 %, however many pairs were looked at.
 */
export function comparePairs(pairs: readonly (readonly [a: KnownMean, b: KnownMean])[]): Comparison[] {
  const differences = pairs.map(([a, b]) => differenceOf(a, b))
  const above = differences.map(one => (isKnown(one) ? probabilityAbove(one, 0) : null))
  // A pair that cannot be told apart was still looked at: it counts, with the p of no evidence.
  const adjusted = holm(above.map(p => (p === null ? 1 : 2 * Math.min(p, 1 - p))))
  return differences.map((one, i) => ({
    differenceRpm: one.meanRpm,
    band: isKnown(one) ? bandOfMean(one) : null,
    probabilityAOverB: above[i]!,
    adjustedP: above[i] === null ? null : adjusted[i]!,
  }))
}

const isKnown = ({ own }: KnownMean) => Number.isFinite(own.standardUncertaintyRpm)

/** Every pair of a list, each once, in the list's order. */
export const allPairs = <T>(items: readonly T[]): [T, T][] =>
  items.flatMap((a, i) => items.slice(i + 1).map((b): [T, T] => [a, b]))
