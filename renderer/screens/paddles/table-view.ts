import { type Flag, flagSchema } from '../../../core/contract/reading.ts'
import type { PaddleTable, TableRow } from '../../../core/contract/standings.ts'
import { byWords, sortedRows } from '../../components/sorted-rows.ts'

export type Column = 'rank' | 'paddle' | 'rpm' | 'dots' | 'hits' | 'percentile' | 'tier' | 'flag' | number
export type View = {
  search: string
  tier: string | null
  flag: Flag | null
  /** Of a column of other values, by its place: the value that a row must have. */
  values: Record<number, string>
  sort: { column: Column; down: boolean }
}
export const wholeView: View = {
  search: '',
  tier: null,
  flag: null,
  values: {},
  sort: { column: 'rank', down: false },
}

type Key = string | number | null
const keys: Record<Exclude<Column, number>, (row: TableRow) => Key> = {
  rank: row => row.rank,
  paddle: row => `${row.paddle} ${row.setUp}`,
  rpm: row => row.meanRpm,
  dots: row => row.betweenHitSdRpm,
  hits: row => row.hits,
  percentile: row => row.percentile,
  tier: row => row.meanRpm,
  flag: row => flagSchema.options.indexOf(row.flag),
}
const keyOf = (column: Column) =>
  typeof column === 'number' ? (row: TableRow) => row.metrics[column]?.value ?? null : keys[column]

/** The rows that a view shows, in its order. Rows without what it sorts by come last either way. */
export function rowsOf(rows: readonly TableRow[], view: View): TableRow[] {
  const words = view.search.toLowerCase().split(/\s+/).filter(Boolean)
  const values = Object.entries(view.values)
  const shown = rows.filter(
    row =>
      (view.tier === null || row.tier === view.tier) &&
      (view.flag === null || row.flag === view.flag) &&
      values.every(([column, value]) => String(row.metrics[Number(column)]?.value ?? '') === value) &&
      words.every(word => `${row.paddle} ${row.setUp}`.toLowerCase().includes(word)),
  )
  return sortedRows(shown, keyOf(view.sort.column), view.sort.down)
}

export type Choice = { column: number; name: string; values: string[] }
const mostWords = 24
const mostFigures = 8

/** Columns that tell kinds of paddles apart: few words or whole figures, each of which can be chosen. */
export function choicesOf({ columns, rows }: Pick<PaddleTable, 'columns' | 'rows'>): Choice[] {
  return columns.flatMap(({ name }, column) => {
    const values = new Set<string>()
    let most = mostWords
    for (const row of rows) {
      const value = row.metrics[column]?.value
      if (value === undefined) continue
      if (typeof value === 'number') most = Number.isInteger(value) ? mostFigures : 0
      values.add(String(value))
      if (values.size > most) return []
    }
    return values.size > 1 ? [{ column, name, values: [...values].sort(byWords) }] : []
  })
}

/** Columns that hold figures; those of few values choose rows better than they compare them. */
export const figureColumns = ({ columns, rows }: Pick<PaddleTable, 'columns' | 'rows'>): number[] =>
  columns.flatMap((_, column) =>
    rows.some(row => typeof row.metrics[column]?.value === 'number') ? [column] : [],
  )
