import type { Cell, Cells, Field, PlaceKind } from '../../core/contract/exchange.ts'
import type { Layout } from './layout.ts'
import type { Grid } from './sheet.ts'

/** A row that lies in a target, as far as the layout looks. `setUp` is empty where no column says it. */
export type ExistingRow = {
  paddle: string
  setUp: string
  cells: Cells
  /** Fields that the person has a formula in: they are not written over. */
  formulas?: Field[]
}
/** A row to put in, or the cells to put in the place of others; the keys as the target has them. */
export type RowChange = { paddle: string; setUp: string; isNew: boolean; cells: Cells }
/** The rows of a target, none where there is nothing yet. */
export type Found = {
  rows: readonly ExistingRow[]
  /** What its column makes of a value: a column of whole numbers rounds it. */
  kept: (field: Field, value: Cell) => Cell
  /** Why no row can be added, where none can. */
  cannotAdd: string | null
}
/** What to write, from what is there. */
export type Choose = (found: Found) => readonly RowChange[]
export const nothingYet: Found = { rows: [], kept: (_, value) => value, cannotAdd: null }

/** What a write changed, enough to put back exactly what was there. Plain data. */
export type WayBack = { layout: Layout; rows: RowBack[] } & (
  | { how: 'rows'; madeTable: boolean; madeFile: boolean }
  /** The whole file as it was lies in `backup` (null where there was none). */
  | { how: 'file'; sha256: string; backup: { path: string; sha256: string } | null }
)
export type RowBack = { paddle: string; setUp: string; before: Cells | null; after: Cells }

/**
 * Where figures go. Every call looks at the place anew, and throws `target-…`, `server-…`, `disk-full` or
 * `file-unreadable`.
 */
export interface Target {
  kind: PlaceKind
  /** How the place is shown and remembered; holds no password. */
  place: string
  tables(): Promise<{ table: string; columns: string[] }[]>
  /** All of one table, as it stands there. */
  grid(table: string): Promise<Grid>
  /** The rows there now; none where there is nothing yet. Changes nothing. */
  read(layout: Layout): Promise<Found>
  /** Reads, chooses and writes as one step, all or nothing. Nothing chosen leaves the place untouched: null. */
  write(layout: Layout, choose: Choose): Promise<WayBack | null>
  /** Throws `undo-refused` when what was written was changed since. */
  undo(wayBack: WayBack): Promise<void>
}

/** One key for a paddle in a set-up; names may hold anything but a NUL. */
export const keyOf = (row: { paddle: string; setUp: string }) => `${row.paddle}\0${row.setUp}`

/** Equal for a person: a sheet or a column of text may hold a number as its digits. */
export function isSameField(field: string, a: Cell | undefined, b: Cell | undefined): boolean {
  const [one, other] = [a ?? '', b ?? '']
  if (one === other) return true
  // A column of times shows a day as its midnight.
  if (field === 'date') return String(one).slice(0, 10) === String(other).slice(0, 10)
  if (typeof one === typeof other || one === '' || other === '') return false
  return Number(one) === Number(other)
}

/** What in the way back no longer stands; null when all of it does. */
export function movedSince(rows: readonly RowBack[], existing: readonly ExistingRow[]): string | null {
  const there = new Map(existing.map(row => [keyOf(row), row.cells]))
  for (const row of rows) {
    const cells = there.get(keyOf(row))
    const who = row.setUp === '' ? row.paddle : `${row.paddle}, ${row.setUp},`
    if (!cells) return `the row of ${who} is gone`
    const moved = Object.entries(row.after).find(
      ([field, value]) => !isSameField(field, cells[field as Field], value),
    )
    if (moved)
      return `${moved[0]} of ${who} was changed since, from ${moved[1]} to ${cells[moved[0] as Field] ?? 'nothing'}`
  }
  return null
}

/** Rows of one table have one key each; the first that is there twice, in words. */
export function twiceIn(rows: readonly ExistingRow[]): string | null {
  const seen = new Set<string>()
  for (const row of rows) {
    if (seen.has(keyOf(row)))
      return `it lists ${row.paddle}${row.setUp === '' ? '' : `, ${row.setUp},`} twice`
    seen.add(keyOf(row))
  }
  return null
}

export const isNamed = ({ paddle }: { paddle: string }) => paddle !== ''

/** What a write does to each row that was chosen. */
export function changedRows(chosen: readonly RowChange[], before: readonly ExistingRow[]): RowBack[] {
  const there = new Map(before.map(row => [keyOf(row), row.cells]))
  return chosen.map(row => {
    const old = there.get(keyOf(row)) ?? null
    return { paddle: row.paddle, setUp: row.setUp, before: old, after: { ...old, ...row.cells } }
  })
}
