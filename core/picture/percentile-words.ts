import type { PercentileDefinition } from '../contract/rating-rules.ts'

/** What each definition of a percentile counts, in words. */
export const percentileWords: Record<PercentileDefinition, string> = {
  'strictly-below': 'the share of the other paddles strictly below, so the lowest has 0',
  'mid-rank': 'the share below, with half of the equal ones and itself',
  inclusive: 'the share at or below, itself included, so the highest has 100',
}
