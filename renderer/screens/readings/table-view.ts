import type { Verdict } from '../../../core/contract/bench.ts'
import { type Flag, flagSchema } from '../../../core/contract/reading.ts'
import type { ListedHit } from '../../../core/contract/workspace.ts'
import { halfWidthOf } from '../../components/figure-text.ts'
import { sortedRows } from '../../components/sorted-rows.ts'

export type Column = 'flag' | 'rpm' | 'band' | 'counted' | 'paddle' | 'setUp' | 'day' | 'clip' | 'verdict'
export type View = {
  search: string
  /** Which flags to show; none chosen shows all. */
  flags: Flag[]
  paddle: string | null
  verdict: Verdict['state'] | null
  sort: { column: Column; down: boolean }
}

export const wholeView: View = {
  search: '',
  flags: [],
  paddle: null,
  verdict: null,
  sort: { column: 'day', down: true },
}

type Key = string | number | null
const keys: Record<Column, (row: ListedHit) => Key> = {
  flag: row => row.reading && flagSchema.options.indexOf(row.reading.flag),
  rpm: row => row.reading?.rpm ?? null,
  band: row => (row.reading?.band ? halfWidthOf(row.reading.band) : null),
  counted: row => row.reading?.counted?.rpm ?? null,
  paddle: row => row.paddle,
  setUp: row => row.setUp,
  day: row => row.day,
  clip: row => row.clipName,
  verdict: row => row.verdict.state,
}

/** The rows that a view shows, in its order. Rows without a figure come last either way. */
export function rowsOf(rows: ListedHit[], view: View): ListedHit[] {
  const words = view.search.toLowerCase().split(/\s+/).filter(Boolean)
  const shown = rows.filter(
    row =>
      (view.flags.length === 0 || (row.reading !== null && view.flags.includes(row.reading.flag))) &&
      (view.paddle === null || row.paddle === view.paddle) &&
      (view.verdict === null || row.verdict.state === view.verdict) &&
      words.every(word => textOf(row).includes(word)),
  )
  return sortedRows(shown, keys[view.sort.column], view.sort.down)
}

const textOf = (row: ListedHit) =>
  [row.paddle, row.setUp, row.day, row.clipName, row.notes].join(' ').toLowerCase()

export type FlagCounts = Record<Flag, number>

/** How many hits carry each flag. */
export function flagCounts(rows: ListedHit[]): FlagCounts {
  const counts: FlagCounts = { clear: 0, 'near-ceiling': 0, ambiguous: 0, 'too-few-frames': 0 }
  for (const { reading } of rows) if (reading) counts[reading.flag]++
  return counts
}
