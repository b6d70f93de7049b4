import type { RatingRules } from '../contract/rating-rules.ts'
import type { PaddlesDocument, Standing } from '../contract/ratings.ts'
import type { NextTier } from '../contract/standings.ts'
import type { Random } from '../numerics/seeded-random.ts'
import { withBorrowedSpread } from './borrowed-spread.ts'
import { percentiles } from './percentile.ts'
import { type RankBand, rankBandsInSlices } from './rank-bands.ts'
import type { CountedFigure, RatedSetUp } from './rated-set-up.ts'
import { tierOf, tiersOf } from './tiers.ts'

/** A paddle in a set-up, as it comes to be ranked. */
export type Entrant = { setUpId: string; paddle: string; setUp: string } & Pick<
  RatedSetUp,
  'figure' | 'heldBack' | 'flag'
>
/** A standing with what only people are told: the tier that the band also reaches into. */
export type FullStanding = Standing & { setUpId: string; next: NextTier }
type Rated = Entrant & { figure: CountedFigure }

const ratedOf = (entrants: readonly Entrant[]): Rated[] =>
  entrants.filter((one): one is Rated => one.figure !== null)

/**
 * All paddles beside each other: rank, percentile and tier. The highest mean first, equal means share a
 * rank; those without a figure come last, by name, and have no place. Rank bands take longer and are apart.
 */
export function standingsOf(
  entrants: readonly Entrant[],
  rules: Pick<RatingRules, 'percentileDefinition' | 'tiers'>,
): FullStanding[] {
  const rated = ratedOf(entrants).toSorted((a, b) => b.figure.meanRpm - a.figure.meanRpm || byName(a, b))
  const means = rated.map(({ figure }) => figure.meanRpm)
  const known = withBorrowedSpread(rated.map(({ figure }) => figure))
  const percentile = percentiles(means, rules.percentileDefinition)
  const tiers = means.length > 0 ? tiersOf(rules.tiers, means) : []
  let rank = 0
  // Written out key by key: for thousands of rows spreads take longer than all the rest.
  const standings = rated.map((one, i): FullStanding => {
    if (means[i] !== means[i - 1]) rank = i + 1
    const { figure } = one
    const { tier, next } = tierOf(known[i]!, tiers)
    return {
      setUpId: one.setUpId,
      paddle: one.paddle,
      setUp: one.setUp,
      meanRpm: figure.meanRpm,
      band: figure.band,
      hits: figure.hits,
      heldBack: one.heldBack,
      betweenHitSdRpm: figure.betweenHitSdRpm,
      percentile: percentile[i]!,
      rank,
      rankBand: null,
      tier,
      next,
      flag: figure.flag,
    }
  })
  const unrated = entrants.filter(one => one.figure === null)
  return [...standings, ...unrated.map(unplaced).toSorted(byName)]
}

/** Without a figure there is no place. */
export const noPlace = {
  meanRpm: null,
  band: null,
  hits: 0,
  betweenHitSdRpm: null,
  percentile: null,
  rank: null,
  rankBand: null,
  tier: null,
  next: null,
}

const unplaced = ({ setUpId, paddle, setUp, heldBack, flag }: Entrant): FullStanding => ({
  setUpId,
  paddle,
  setUp,
  heldBack,
  flag,
  ...noPlace,
})

/** Rank bands by set-up, draw by draw: what is yielded is the share of the draws that is done. */
export function* rankBandsOf(
  entrants: readonly Entrant[],
  random: Random,
): Generator<number, Map<string, RankBand>> {
  const rated = ratedOf(entrants)
  const known = withBorrowedSpread(rated.map(({ figure }) => figure))
  const bands = yield* rankBandsInSlices(known, random)
  return new Map(rated.map(({ setUpId }, i) => [setUpId, bands[i]!]))
}

type Named = { paddle: string; setUp: string }
const byName = (a: Named, b: Named) => (keyOf(a) < keyOf(b) ? -1 : 1)
const keyOf = ({ paddle, setUp }: Named) => `${paddle}\0${setUp}`

/** `whorl.paddles/1`. */
export const paddlesDocumentOf = (
  standings: readonly FullStanding[],
  { percentileDefinition }: Pick<RatingRules, 'percentileDefinition'>,
): PaddlesDocument => ({
  schema: 'whorl.paddles/1',
  metric: 'spin',
  percentileDefinition,
  paddles: standings.map(({ next: _, setUpId: __, ...standing }) => standing),
})
