import type { ExportLine, RatingRow } from '../../../core/contract/workspace.ts'
import { dayInWords } from '../../components/day-words.ts'
import { halfWidthOf, rpmWithHalfWidth } from '../../components/figure-text.ts'
import { flagWords } from '../../components/flag-mark.tsx'
import { cellText } from './cell-text.ts'

export type Change = { word: string; before: string; after: string }

const meanOf = (row: RatingRow) => rpmWithHalfWidth(row.meanRpm, halfWidthOf(row.band))

/** What a person reads of each field of a row; the evidence is only told apart, not shown. */
const shown: { word: string; of: (row: RatingRow) => string }[] = [
  { word: 'rpm', of: meanOf },
  { word: 'hits', of: row => String(row.hits) },
  { word: 'flag', of: row => flagWords[row.flag] },
  { word: 'limit', of: row => row.limit ?? 'none' },
  { word: 'chosen because', of: row => row.settledReason || 'nothing to choose' },
  { word: 'fps', of: row => row.captureFps },
  { word: 'method', of: row => row.methodVersion },
  { word: 'day', of: row => dayInWords(row.date) },
]

/** The fields in which two rows differ, old and new. */
export function changesOf(before: RatingRow, after: RatingRow): Change[] {
  const seen = shown
    .map(({ word, of }) => ({ word, before: of(before), after: of(after) }))
    .filter(change => change.before !== change.after)
  if (seen.length > 0) return seen
  // The figures round to the same, yet something beneath them moved.
  return before.evidence === after.evidence
    ? []
    : [{ word: 'evidence', before: 'old marks', after: 'new marks' }]
}

/** The cells of a table of the person's own that change, old and new. */
export const changesOfCells = ({ action, changes }: ExportLine): Change[] =>
  action !== 'change'
    ? []
    : changes.map(({ column, before, after }) => ({
        word: column,
        before: cellText(before),
        after: cellText(after),
      }))
