import type { MetricColumn, SetUpRank, TableRow } from '../../../core/contract/standings.ts'
import { Figure } from '../../components/figure.tsx'
import { digits, halfWidthOf } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import { HitDots } from '../../components/hit-dots.tsx'
import { PercentileBar } from '../../components/percentile-bar.tsx'
import { chanceWords } from '../../components/place-words.ts'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { hrefOf } from '../../state/route.ts'
import type { Column } from './table-view.ts'

export type Seen = { scale: RpmScale; ranks: ReadonlyMap<string, SetUpRank> }
export type ColumnLook = {
  column: Column
  word: string
  unit?: string
  cell: (row: TableRow, seen: Seen) => React.ReactNode
}

/** What stands in the table of every workspace: its word above, and what stands in a row. */
const usual: ColumnLook[] = [
  {
    column: 'rank',
    word: 'Place',
    cell: ({ rank, setUpId }, { ranks }) => {
      const band = ranks.get(setUpId)
      return (
        rank !== null && (
          <span className="figure">
            {digits(rank)}
            {band && (
              <span className="quiet paddles-rank-band" title="may truly be, with 95 %">
                {band.low === band.high ? '' : `${digits(band.low)}–${digits(band.high)}`}
              </span>
            )}
          </span>
        )
      )
    },
  },
  {
    column: 'paddle',
    word: 'Paddle',
    cell: ({ paddle, setUp, paddleId }) => (
      <>
        <a href={hrefOf({ screen: 'paddle', paddleId })} tabIndex={-1}>
          {paddle}
        </a>
        <span className="quiet">{setUp}</span>
      </>
    ),
  },
  {
    column: 'rpm',
    word: 'rpm, mean',
    cell: ({ meanRpm, band, heldBack }) =>
      meanRpm === null ? (
        <span className="quiet">{heldBack > 0 ? 'none yet' : 'not filmed'}</span>
      ) : (
        <Figure rpm={meanRpm} halfWidthRpm={band && halfWidthOf(band)} unit={false} />
      ),
  },
  {
    column: 'dots',
    word: 'Hits, and the band of the mean',
    cell: ({ dots, leftOut, meanRpm, band }, { scale }) => (
      <HitDots dots={dots} leftOut={leftOut} meanRpm={meanRpm} band={band} scale={scale} />
    ),
  },
  {
    column: 'hits',
    word: 'Hits',
    cell: ({ hits, heldBack, mishits }) => (
      <span className="figure">
        {digits(hits)}
        {heldBack > 0 && (
          <span className="quiet" title={`${heldBack} left out`}>
            {` −${heldBack}`}
          </span>
        )}
        {mishits > 0 && (
          <span className="paddles-mishit" title={`A rule would leave out ${mishits}`}>
            ?
          </span>
        )}
      </span>
    ),
  },
  {
    column: 'percentile',
    word: 'Percentile',
    cell: ({ percentile }) =>
      percentile !== null && (
        <PercentileBar percentile={percentile}>
          <span className="figure">{digits(percentile)}</span>
        </PercentileBar>
      ),
  },
  {
    column: 'tier',
    word: 'Tier',
    cell: ({ tier, next }) => (
      <>
        {tier}
        {next && (
          <span className="quiet">
            {chanceWords(next.probability)} {next.tier}
          </span>
        )}
      </>
    ),
  },
  {
    column: 'flag',
    word: 'Flag',
    cell: ({ hits, heldBack, flag }) => hits + heldBack > 0 && <FlagMark flag={flag} bare />,
  },
]

/** Those, and the other values that are to be seen beside them. */
export const columnsOf = (metrics: readonly MetricColumn[], shown: readonly number[]): ColumnLook[] => [
  ...usual,
  ...shown.map(
    (column): ColumnLook => ({
      column,
      word: metrics[column]!.name,
      unit: metrics[column]!.unit,
      cell: row => <MetricCell metric={row.metrics[column] ?? null} />,
    }),
  ),
]

function MetricCell({ metric }: { metric: TableRow['metrics'][number] }) {
  if (metric === null) return <span className="quiet">–</span>
  if (typeof metric.value === 'string') return metric.value
  const figure = <span className="figure">{String(metric.value).replace('-', '\u2212')}</span>
  return metric.percentile === null ? (
    figure
  ) : (
    <PercentileBar percentile={metric.percentile}>{figure}</PercentileBar>
  )
}
