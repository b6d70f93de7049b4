import { existsSync, readFileSync, rmSync } from 'node:fs'
import type { Cell, Cells, Field } from '../../core/contract/exchange.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { isNumeric } from './columns.ts'
import { hashOf } from './hash-of.ts'
import { columnOf, fieldsOf, type Layout } from './layout.ts'
import { numberOfText } from './number-text.ts'
import { putFile } from './put-file.ts'
import type { CellEdit, Grid, SheetCell, SheetFormat } from './sheet.ts'
import {
  changedRows,
  type ExistingRow,
  type Found,
  isNamed,
  isSameField,
  keyOf,
  movedSince,
  nothingYet,
  type RowChange,
  type Target,
  twiceIn,
} from './target.ts'

type Placed = ExistingRow & { place: number }

/**
 * A file with a row a paddle and set-up. Only mapped cells are written; all else of the person's stays, and
 * a copy of the file as it was is put beside it.
 */
export function sheetTarget(path: string, format: SheetFormat): Target {
  const unlike = (what: string) => new WhorlError('target-unlike', { path, what })
  const tablesIn = (bytes: Uint8Array) => {
    try {
      return bytes.length === 0 ? [] : format.tables(bytes)
    } catch (thrown) {
      throw unlike((thrown as Error).message)
    }
  }
  const gridIn = (bytes: Uint8Array, layout: Layout): Grid | null => {
    const tables = tablesIn(bytes)
    const there = tables.find(({ table }) => table === layout.table) ?? (layout.own ? tables[0] : undefined)
    if (there) return checked(there.grid, layout, unlike)
    if (layout.own) return null
    throw unlike(layout.table === '' ? 'it is empty' : `it has no sheet ${layout.table}`)
  }
  const found = (bytes: Uint8Array, layout: Layout): Found & { rows: Placed[] } => {
    const grid = gridIn(bytes, layout)
    const rows = grid === null ? [] : placedRows(grid, layout)
    const twice = twiceIn(rows)
    if (twice !== null) throw unlike(twice)
    return { ...nothingYet, rows }
  }

  return {
    kind: format.kind,
    place: path,
    tables: async () => tablesIn(readBytes(path)).map(({ table, grid }) => ({ table, columns: grid.header })),
    grid: async table => {
      const there = tablesIn(readBytes(path)).find(one => one.table === table)
      if (!there) throw unlike(table === '' ? 'it is empty' : `it has no sheet ${table}`)
      return there.grid
    },
    read: async layout => found(readBytes(path), layout),
    write: async (layout, choose) => {
      const bytes = readBytes(path)
      const before = found(bytes, layout)
      const chosen = choose(before)
      if (chosen.length === 0) return null
      const base =
        gridIn(bytes, layout) === null
          ? format.fresh(fieldsOf(layout).map(name => columnOf(layout, name)))
          : bytes
      const grid = gridIn(base, layout)
      const header = grid?.header ?? fieldsOf(layout).map(name => columnOf(layout, name))
      const table =
        tablesIn(base).find(one => one.table === layout.table)?.table ?? tablesIn(base)[0]?.table ?? ''
      const after = format.edited(
        base,
        table,
        editsOf(chosen, before.rows, header, grid?.rows.length ?? 0, layout),
        header,
      )
      const backup = putFile(path, after)
      return {
        how: 'file',
        layout,
        sha256: hashOf(after),
        backup,
        rows: changedRows(chosen, before.rows),
      }
    },
    undo: async back => {
      if (back.how !== 'file') throw new Error('Not the way back of a file')
      const refused = (what: string) => new WhorlError('undo-refused', { what })
      if (!existsSync(path)) throw refused(`${path} is gone`)
      const now = readBytes(path)
      if (hashOf(now) !== back.sha256)
        throw refused(
          movedSince(back.rows, found(now, back.layout).rows) ?? `other cells of ${path} were changed since`,
        )
      if (back.backup === null) return rmSync(path)
      const { path: copy, sha256 } = back.backup
      const old = existsSync(copy) ? readFileSync(copy) : null
      if (old === null || hashOf(old) !== sha256) throw refused(`the copy ${copy} is gone or was changed`)
      putFile(path, old, { keep: false })
      rmSync(copy)
    },
  }
}

function readBytes(path: string): Uint8Array {
  if (!existsSync(path)) return new Uint8Array()
  try {
    return readFileSync(path)
  } catch (cause) {
    throw new WhorlError('file-unreadable', { path, what: (cause as Error).message }, { cause })
  }
}

function checked(grid: Grid, layout: Layout, unlike: (what: string) => Error): Grid {
  for (const field of fieldsOf(layout)) {
    const name = columnOf(layout, field)
    const count = grid.header.filter(header => header === name).length
    if (count === 0) throw unlike(`its first line has no column ${name}`)
    if (count > 1) throw unlike(`its first line has the column ${name} twice`)
  }
  return grid
}

/** The rows that name a paddle, as far as the layout looks: numbers as numbers, an empty cell as none. */
function placedRows(grid: Grid, layout: Layout): Placed[] {
  const places = fieldsOf(layout).map(field => [field, grid.header.indexOf(columnOf(layout, field))] as const)
  return grid.rows
    .map((row, place) => {
      const cells: Cells = Object.fromEntries(places.map(([field, i]) => [field, cellIn(row[i], field)]))
      const formulas = places.flatMap(([field, i]) => (row[i]?.formula ? [field] : []))
      return { paddle: String(cells.paddle ?? ''), setUp: String(cells.set_up ?? ''), cells, formulas, place }
    })
    .filter(isNamed)
}

function cellIn(cell: SheetCell | undefined, field: Field): Cell {
  const value = cell?.value ?? null
  if (value === null || value === '') return null
  if (!isNumeric(field)) return String(value)
  if (typeof value === 'number') return value
  return numberOfText(value, 'point') ?? numberOfText(value, 'comma') ?? value
}

/** The cells that differ, and whole rows behind the last for what is new. */
function editsOf(
  chosen: readonly RowChange[],
  before: readonly Placed[],
  header: readonly string[],
  rows: number,
  layout: Layout,
): CellEdit[] {
  const there = new Map(before.map(row => [keyOf(row), row]))
  let next = rows
  return chosen.flatMap(change => {
    const old = there.get(keyOf(change))
    const row = old?.place ?? next++
    return (Object.keys(change.cells) as Field[])
      .filter(field => !old || !isSameField(field, old.cells[field], change.cells[field]))
      .map(field => ({
        row,
        column: header.indexOf(columnOf(layout, field)),
        value: change.cells[field] ?? null,
      }))
  })
}
