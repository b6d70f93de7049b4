import type { Service } from '../../core/contract/calls.ts'
import type { SetUpRank } from '../../core/contract/standings.ts'
import { comparisonOf } from '../../core/ratings/comparison.ts'
import type { Parts } from './parts.ts'
import { drawRanks } from './rank-work.ts'
import { paddlePage } from './rating-page.ts'
import { keepRatingRules } from './rating-rules.ts'
import { createRatings, type Ratings } from './rating-table.ts'

type Calls = `ratings.${'table' | 'ranks' | 'paddle' | 'compare' | 'setRules'}`

/** Paddles beside each other: their table, one of them, some of them compared. */
export const ratingCalls = (parts: Parts): Pick<Service, Calls> => {
  const ratings = createRatings(parts)
  let ranked: { of: Ratings; ranks: SetUpRank[] } | null = null
  return {
    'ratings.table': async (_, { progress }) => (await ratings(progress)).table,
    'ratings.ranks': async (_, context) => {
      const now = await ratings(context.progress)
      if (ranked?.of !== now) ranked = { of: now, ranks: await drawRanks(now.setUps, context) }
      return ranked.ranks
    },
    'ratings.paddle': async ({ paddleId }, { progress }) =>
      paddlePage(parts, await ratings(progress), paddleId),
    'ratings.compare': async ({ setUpIds }, { progress }) => comparisonOf(await ratings(progress), setUpIds),
    'ratings.setRules': async ({ rules }) => {
      keepRatingRules(parts.workspace, rules)
      parts.bus.say({ kind: 'changed', what: 'ratings', id: null })
      return rules
    },
  }
}
