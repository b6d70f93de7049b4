import type { ListedHit } from '../../../core/contract/workspace.ts'
import { BandBar } from '../../components/band-bar.tsx'
import { dayInWords } from '../../components/day-words.ts'
import { Figure } from '../../components/figure.tsx'
import { digits, halfWidthOf } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { provenanceWords, standingOf } from '../../components/whose-reading.ts'
import type { Column } from './table-view.ts'

type ColumnLook = { column: Column; word: string; cell: (row: ListedHit, scale: RpmScale) => React.ReactNode }

/** The table, column by column: its word above, and what stands in a row. */
export const columns: ColumnLook[] = [
  {
    column: 'flag',
    word: 'Flag',
    cell: ({ reading }) =>
      reading ? <FlagMark flag={reading.flag} bare /> : <span className="unseen">not read</span>,
  },
  {
    column: 'rpm',
    word: 'rpm',
    cell: ({ reading, stale }) =>
      reading?.rpm == null ? (
        <span className="quiet">{reading ? 'no figure' : 'not read'}</span>
      ) : (
        <span
          className={stale ? 'quiet' : undefined}
          title={stale ? 'The marks changed since this was read.' : undefined}
        >
          <Figure rpm={reading.rpm} halfWidthRpm={reading.band && halfWidthOf(reading.band)} unit={false} />
        </span>
      ),
  },
  {
    column: 'band',
    word: 'Band, 95 %',
    cell: ({ reading }, scale) => (
      <BandBar
        rpm={reading?.rpm ?? null}
        band={reading?.band ?? null}
        beneath={reading?.counted ?? null}
        flag={reading?.flag ?? 'too-few-frames'}
        scale={scale}
        lines
      />
    ),
  },
  {
    column: 'counted',
    word: 'Counted',
    cell: ({ reading }) =>
      reading?.counted && <span className="figure quiet">{digits(reading.counted.rpm)}</span>,
  },
  { column: 'paddle', word: 'Paddle', cell: row => row.paddle ?? <span className="quiet">none yet</span> },
  { column: 'setUp', word: 'Set-up', cell: row => <span className="quiet">{row.setUp}</span> },
  { column: 'day', word: 'Day', cell: row => dayInWords(row.day) },
  { column: 'clip', word: 'Clip', cell: row => row.clipName },
  {
    column: 'verdict',
    word: 'Verdict',
    cell: row => (
      <span
        className={row.verdict.state === 'accepted' ? undefined : 'quiet'}
        title={row.provenance ? provenanceWords[row.provenance] : undefined}
      >
        {standingOf(row)}
      </span>
    ),
  },
]
