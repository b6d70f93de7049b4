import { existsSync, rmSync } from 'node:fs'
import { type Cells, type Field, fieldNames } from '../../core/contract/exchange.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { Database, type SqlValues } from '../store/database.ts'
import type { Trouble } from '../store/driver.ts'
import { columns } from './columns.ts'
import { fitNumber } from './fit-number.ts'
import { columnOf, fieldsOf, type Layout } from './layout.ts'
import { gridOfRows } from './sheet.ts'
import { quoted } from './sql-names.ts'
import { checkTable, columnsIn, tablesIn, wantsMore } from './sqlite-tables.ts'
import {
  changedRows,
  type ExistingRow,
  type Found,
  isNamed,
  movedSince,
  nothingYet,
  type RowChange,
  type Target,
  twiceIn,
  type WayBack,
} from './target.ts'

/** A person's own SQLite database: Whorl writes its own table there, or mapped columns of another. */
export function sqliteTarget(path: string): Target {
  const open = (readOnly: boolean) =>
    new Database(path, {
      readOnly,
      onTrouble: (trouble, cause) => new WhorlError(troubleCodes[trouble], { path }, { cause }),
    })
  const unlike = (what: string) => new WhorlError('target-unlike', { path, what })

  function rows(db: Database, layout: Layout): ExistingRow[] {
    if (!checkTable(db, layout, unlike)) return []
    const found = db.all<Cells>(selectRows(layout)).map(cells => rowOf(cells, unlike))
    const twice = twiceIn(found.filter(isNamed))
    if (twice !== null) throw unlike(twice)
    return found.filter(isNamed)
  }
  const found = (db: Database, layout: Layout): Found => ({
    rows: rows(db, layout),
    kept: fitIn(db, layout),
    cannotAdd: wantsMore(columnsIn(db, layout.table), layout),
  })

  /** A program killed while writing leaves a journal that only a connection which may write can roll back. */
  function reading<T>(work: (db: Database) => T): T {
    try {
      return within(open(true), work)
    } catch (thrown) {
      if (!(thrown instanceof WhorlError) || thrown.code !== 'target-read-only') throw thrown
      return within(open(false), work)
    }
  }

  /** A new file that could not be written leaves no trace. */
  function writing<T>(work: (db: Database) => T): T {
    const isNew = !existsSync(path)
    try {
      return within(open(false), db => db.transaction(() => work(db)))
    } catch (thrown) {
      if (isNew) for (const file of [path, `${path}-journal`]) rmSync(file, { force: true })
      throw thrown
    }
  }

  return {
    kind: 'sqlite',
    place: path,
    tables: async () =>
      existsSync(path)
        ? reading(db =>
            tablesIn(db).map(table => ({ table, columns: columnsIn(db, table).map(({ name }) => name) })),
          )
        : [],
    grid: async table =>
      reading(db => {
        const header = columnsIn(db, table).map(({ name }) => name)
        if (header.length === 0) throw unlike(`it has no table ${table}`)
        return gridOfRows(header, db.all(`SELECT * FROM ${quoted(table)}`))
      }),
    read: async layout => (existsSync(path) ? reading(db => found(db, layout)) : nothingYet),
    write: async (layout, choose) => {
      const madeFile = !existsSync(path)
      if (madeFile && choose(nothingYet).length === 0) return null
      return writing(db => {
        const before = found(db, layout)
        const chosen = choose(before)
        if (chosen.length === 0) return null
        const madeTable = !tablesIn(db).includes(layout.table)
        if (madeTable) db.exec(create)
        put(db, layout, chosen, unlike)
        return {
          how: 'rows',
          layout,
          madeTable,
          madeFile,
          rows: changedRows(chosen, before.rows),
        }
      })
    },
    undo: async wayBack => {
      if (wayBack.how !== 'rows') throw new Error('Not the way back of a table')
      const isEmpty = writing(db => {
        takeBack(db, wayBack, rows(db, wayBack.layout), unlike)
        return wayBack.madeFile && tablesIn(db).length === 0
      })
      if (isEmpty) rmSync(path)
    },
  }
}

const create = `
  CREATE TABLE whorl_spin (
    ${columns.map(({ name, type }) => `${name} ${type}${name === 'ceiling_limit' ? '' : ' NOT NULL'}`).join(',\n    ')},
    PRIMARY KEY (paddle, set_up)
  )`

const selectRows = (layout: Layout) =>
  `SELECT ${fieldsOf(layout)
    .map(field => `${quoted(columnOf(layout, field))} AS ${field}`)
    .join(', ')} FROM ${quoted(layout.table)}`

const whereKey = (layout: Layout) =>
  (['paddle', 'set_up'] as const)
    .filter(field => layout.columns[field])
    .map(field => `${quoted(columnOf(layout, field))} = $key_${field}`)
    .join(' AND ')
const keyValues = (layout: Layout, { paddle, setUp }: { paddle: string; setUp: string }): SqlValues =>
  layout.columns.set_up ? { key_paddle: paddle, key_set_up: setUp } : { key_paddle: paddle }

type Unlike = (what: string) => Error

function put(db: Database, layout: Layout, changes: readonly RowChange[], unlike: Unlike): void {
  const table = quoted(layout.table)
  const named = (field: Field) => quoted(columnOf(layout, field))
  const inserting = (fields: Field[]) =>
    `INSERT INTO ${table} (${fields.map(named).join(', ')}) VALUES (${fields.map(field => `$${field}`).join(', ')})`
  const updating = (fields: Field[]) =>
    `UPDATE ${table} SET ${fields.map(field => `${named(field)} = $${field}`).join(', ')} WHERE ${whereKey(layout)}`
  const statements = new Map<string, string>()
  for (const { isNew, cells, ...key } of changes) {
    const fields = Object.keys(cells) as Field[]
    const kind = `${isNew} ${fields.join()}`
    const sql = statements.get(kind) ?? (isNew ? inserting(fields) : updating(fields))
    statements.set(kind, sql)
    const values = cells as SqlValues
    const done = db.run(sql, isNew ? values : { ...values, ...keyValues(layout, key) })
    if (done !== 1) throw unlike(`the row of ${key.paddle} in ${layout.table} cannot be told from others`)
  }
}

type RowsBack = Extract<WayBack, { how: 'rows' }>

function takeBack(db: Database, back: RowsBack, now: readonly ExistingRow[], unlike: Unlike): void {
  const { layout } = back
  const moved = movedSince(back.rows, now)
  if (moved !== null) throw new WhorlError('undo-refused', { what: moved })
  const table = quoted(layout.table)
  for (const { before, ...key } of back.rows)
    if (before === null) db.run(`DELETE FROM ${table} WHERE ${whereKey(layout)}`, keyValues(layout, key))
    else put(db, layout, [{ ...key, isNew: false, cells: before }], unlike)
  if (back.madeTable && db.get(`SELECT 1 FROM ${table}`) === undefined) db.exec(`DROP TABLE ${table}`)
}

function fitIn(db: Database, layout: Layout) {
  const types = new Map(columnsIn(db, layout.table).map(({ name, type }) => [name, type]))
  return (field: Field, value: Cells[Field]) => {
    // A declared type with INT in it holds whole numbers (sqlite.org/datatype3.html, 3.1).
    const whole = /INT/i.test(types.get(layout.columns[field] ?? '') ?? '')
    return fitNumber(whole ? { kind: 'decimals', decimals: 0 } : { kind: 'all' }, value ?? null)
  }
}

function rowOf(cells: Cells, unlike: Unlike): ExistingRow {
  for (const field of fieldNames) {
    const value: unknown = cells[field]
    if (typeof value === 'object' && value !== null) throw unlike(`its column for ${field} holds bytes`)
  }
  return { paddle: String(cells.paddle ?? ''), setUp: String(cells.set_up ?? ''), cells: { ...cells } }
}

const troubleCodes = {
  locked: 'target-locked',
  'read-only': 'target-read-only',
  full: 'disk-full',
  'not-a-database': 'target-not-database',
  damaged: 'target-not-database',
} as const satisfies Record<Trouble, string>

function within<T>(db: Database, work: (db: Database) => T): T {
  try {
    return work(db)
  } finally {
    db.close()
  }
}
