import type { Metric } from './metrics.ts'
import type { RatingRules } from './rating-rules.ts'
import type { Standing } from './ratings.ts'
import type { Band, CeilingLimit, Flag } from './reading.ts'

/** Another tier that the band reaches into, and how likely the mean lies there or beyond. */
export type NextTier = { tier: string; probability: number } | null

/** A value that was measured elsewhere, with its percentile among all that have one; text has none. */
export type PlacedMetric = Pick<Metric, 'value'> & { percentile: number | null }
export type MetricColumn = { name: string; unit: string }

/** One row of the table of paddles. `rankBand` is null: `ratings.ranks` answers with it when it is ready. */
export type TableRow = Standing & {
  setUpId: string
  paddleId: string
  next: NextTier
  /** Standard uncertainties of the mean: what more hits average away, and what they never do. */
  ownUncertaintyRpm: number | null
  sharedUncertaintyRpm: number | null
  /** What limits a flagged figure. */
  limit: CeilingLimit | null
  /** Rates of the hits in the mean, and of those left out that have one: whole rpm, in order of rate. */
  dots: number[]
  leftOut: number[]
  /** Hits that a rule proposes to leave out. */
  mishits: number
  sessions: number
  /** The last day that it was hit; null where it never was. */
  lastDay: string | null
  /** In the order of the table's columns. */
  metrics: (PlacedMetric | null)[]
}
export type PaddleTable = { rules: RatingRules; columns: MetricColumn[]; rows: TableRow[] }
export type SetUpRank = { setUpId: string; low: number; high: number }

export type Normal = { value: number; standardUncertainty: number | null }
/** One hit on a paddle's page. `leftOut` says why it is not in the mean. */
export type PaddleHit = {
  hitId: string
  rpm: number | null
  band: Band | null
  flag: Flag
  sessionId: string
  day: string
  clipName: string
  fromFrame: number
  leftOut: { reason: string; by: 'rule' | 'hand' } | null
  /** What a rule says against a hit that is in the mean. */
  mishit: string | null
  /** Spin over ball speed, rpm per m/s, and the spin parameter; null where the speed was not measured. */
  perSpeed: Normal | null
  spinParameter: Normal | null
}
export type SessionMean = {
  sessionId: string
  day: string
  place: string
  meanRpm: number | null
  band: Band | null
  hits: number
}
export type PaddleSetUp = {
  setUpId: string
  name: string
  notes: string
  /** Null while no hit was given to it. */
  row: TableRow | null
  hits: PaddleHit[]
  sessions: SessionMean[]
  /** The mean as it would be on the reference paddle's mean day; null without a reference in its sessions. */
  corrected: { meanRpm: number; band: Band } | null
}
/** How a session differs by the reference paddle alone: a factor on every rate of that day. */
export type SessionFactor = {
  sessionId: string
  day: string
  place: string
  factor: number
  halfWidth: number
}
export type PaddlePage = {
  paddleId: string
  name: string
  notes: string
  columns: MetricColumn[]
  setUps: PaddleSetUp[]
  /** Null without a reference paddle that was hit in two sessions. */
  drift: {
    reference: string
    isSeen: boolean
    betweenSessionsRelative: number
    sessions: SessionFactor[]
  } | null
}

export type ComparedPair = {
  a: string
  b: string
  differenceRpm: number
  band: Band | null
  probabilityAOverB: number | null
  adjustedP: number | null
  /** What both share, as one camera's error, cancels in the difference. */
  sharesCamera: boolean
}
/** Set-ups side by side and every pair of them, named by their ids. Corrected together (Holm). */
export type PaddleComparison = { rows: TableRow[]; pairs: ComparedPair[] }
