import type { Cell, PlaceKind } from '../../core/contract/exchange.ts'

/** A cell as it is read. `formula`: what stands there is computed by the person's own formula. */
export type SheetCell = { value: Cell; formula: boolean }
/** One table of a file: the header, and the rows beneath it. `numbers` are the rows' own, as the person counts them. */
export type Grid = { header: string[]; rows: SheetCell[][]; numbers: number[] }
/** The rows of a database's table; what no cell can show (bytes) is left empty. */
export function gridOfRows(header: string[], rows: readonly Record<string, unknown>[]): Grid {
  const cellOf = (value: unknown): Cell =>
    typeof value === 'string' || typeof value === 'number'
      ? value
      : typeof value === 'bigint'
        ? String(value)
        : null
  return {
    header,
    rows: rows.map(row => header.map(name => ({ value: cellOf(row[name]), formula: false }))),
    numbers: rows.map((_, i) => i + 1),
  }
}

/** One cell to write; `row` counts the grid's rows from 0, and goes on behind the last for new ones. */
export type CellEdit = { row: number; column: number; value: Cell }

/** A kind of file that holds tables. Functions throw an Error that says what is wrong with the bytes. */
export type SheetFormat = {
  kind: Extract<PlaceKind, 'csv' | 'xlsx' | 'json'>
  /** Each table by its name; the name is empty where the file is the table. */
  tables(bytes: Uint8Array): { table: string; grid: Grid }[]
  /** The file with these cells written, and all else left as it was; `header` names the columns. */
  edited(bytes: Uint8Array, table: string, edits: readonly CellEdit[], header: readonly string[]): Uint8Array
  /** A new file with one table that has these columns and no rows. */
  fresh(header: string[]): Uint8Array
}

/** `B7`, as spreadsheets name a cell. */
export function cellName(column: number, row: number): string {
  let letters = ''
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26))
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters
  return `${letters}${row}`
}
