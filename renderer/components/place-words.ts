import type { PercentileDefinition } from '../../core/contract/rating-rules.ts'
import { digits } from './figure-text.ts'

/** `1st`, `2nd`, `3rd`, `4th` … `11th` … `21st`. */
export function ordinal(place: number): string {
  const isTeen = Math.floor(place / 10) % 10 === 1
  return `${digits(place)}${(!isTeen && { 1: 'st', 2: 'nd', 3: 'rd' }[place % 10]) || 'th'}`
}

/** `2nd to 5th`, or `3rd` where the place is sure. */
export const rankBandWords = ({ low, high }: { low: number; high: number }): string =>
  low === high ? ordinal(low) : `${ordinal(low)} to ${ordinal(high)}`

/** `0.73` as `73 %`; never quite nothing, never quite sure. */
export function chanceWords(probability: number): string {
  if (probability < 0.005) return 'below 1\u00a0%'
  if (probability > 0.995) return 'above 99\u00a0%'
  return `${digits(100 * probability)}\u00a0%`
}

export const definitionWords: Record<PercentileDefinition, string> = {
  'strictly-below': 'the share of the other paddles strictly below, so the lowest has 0',
  'mid-rank': 'the share below, with half of the equal ones and itself',
  inclusive: 'the share at or below, itself included, so the highest has 100',
}
