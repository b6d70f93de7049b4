import type { Metric } from '../contract/metrics.ts'
import type { RatingRules } from '../contract/rating-rules.ts'
import type { PaddleTable, TableRow } from '../contract/standings.ts'
import { sharedUncertaintyOf } from './known-mean.ts'
import { type MetricColumns, metricColumns } from './metric-columns.ts'
import type { RatedSetUp } from './rated-set-up.ts'
import { noPlace, standingsOf } from './standings.ts'

export type SetUpName = { setUpId: string; paddleId: string; paddle: string; setUp: string }
/** A set-up with hits, and its figure. */
export type NamedSetUp = RatedSetUp & SetUpName
export type TableSource = {
  setUps: readonly NamedSetUp[]
  /** Paddles without a hit, each in one set-up. */
  unfilmed: readonly SetUpName[]
  metrics: readonly Metric[]
  rules: RatingRules
}

/** Every paddle and set-up with its place, the highest first; then those that were only measured elsewhere. */
export function paddleTable({ setUps, unfilmed, metrics, rules }: TableSource): PaddleTable {
  const { columns, of } = metricColumns(metrics, rules.percentileDefinition)
  const bySetUp = new Map(setUps.map(one => [one.setUpId, one]))
  const rows = standingsOf(setUps, rules).map((standing): TableRow => {
    const one = bySetUp.get(standing.setUpId)!
    const { figure } = one
    // Key by key, as in the standings: for thousands of rows the shape of the objects is what takes the time.
    return {
      setUpId: standing.setUpId,
      paddle: standing.paddle,
      setUp: standing.setUp,
      meanRpm: standing.meanRpm,
      band: standing.band,
      hits: standing.hits,
      heldBack: standing.heldBack,
      betweenHitSdRpm: standing.betweenHitSdRpm,
      percentile: standing.percentile,
      rank: standing.rank,
      rankBand: standing.rankBand,
      tier: standing.tier,
      next: standing.next,
      flag: standing.flag,
      paddleId: one.paddleId,
      ownUncertaintyRpm: figure?.own.standardUncertaintyRpm ?? null,
      sharedUncertaintyRpm: figure && sharedUncertaintyOf(figure),
      limit: figure?.limit ?? null,
      dots: one.dots,
      leftOut: one.leftOut,
      mishits: one.mishits,
      sessions: one.sessions,
      lastDay: one.lastDay,
      metrics: of(one.paddleId, standing.setUpId),
    }
  })
  return { rules, columns, rows: [...rows, ...unfilmed.map(one => withoutHits(one, of))] }
}

const withoutHits = (name: SetUpName, of: MetricColumns['of']): TableRow => ({
  ...name,
  ...noPlace,
  heldBack: 0,
  flag: 'too-few-frames',
  ownUncertaintyRpm: null,
  sharedUncertaintyRpm: null,
  limit: null,
  dots: [],
  leftOut: [],
  mishits: 0,
  sessions: 0,
  lastDay: null,
  metrics: of(name.paddleId, name.setUpId),
})
