import type { SetUpRank, TableRow } from '../../../core/contract/standings.ts'
import { Figure } from '../../components/figure.tsx'
import { halfWidthOf } from '../../components/figure-text.ts'
import { HitDots } from '../../components/hit-dots.tsx'
import { ordinal, rankBandWords } from '../../components/place-words.ts'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { hrefOf } from '../../state/route.ts'

type MemberProps = { row: TableRow; scale: RpmScale; rank: SetUpRank | null; onRemove: () => void }

/** One of the set-ups that are compared, with its hits on the common scale. */
export function Member({ row, scale, rank, onRemove }: MemberProps) {
  return (
    <li className="compare-member">
      <span className="compare-name">
        <a href={hrefOf({ screen: 'paddle', paddleId: row.paddleId })}>{row.paddle}</a>
        <span className="quiet">{row.setUp}</span>
      </span>
      {row.meanRpm === null ? (
        <span className="quiet">no figure yet</span>
      ) : (
        <Figure rpm={row.meanRpm} halfWidthRpm={row.band && halfWidthOf(row.band)} />
      )}
      <HitDots dots={row.dots} leftOut={row.leftOut} meanRpm={row.meanRpm} band={row.band} scale={scale} />
      <span>
        {row.rank !== null && ordinal(row.rank)}
        {rank && <span className="quiet"> {rankBandWords(rank)}</span>}
      </span>
      <button
        type="button"
        className="plain"
        aria-label={`Remove ${row.paddle}, ${row.setUp}`}
        onClick={onRemove}
      >
        Remove
      </button>
    </li>
  )
}
