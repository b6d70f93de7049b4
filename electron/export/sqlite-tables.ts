import type { Database } from '../store/database.ts'
import { fieldsOf, type Layout, ownTable } from './layout.ts'
import { quoted } from './sql-names.ts'

type ColumnInfo = { name: string; type: string; pk: number; notnull: number; dflt_value: string | null }

export const tablesIn = (db: Database): string[] =>
  db
    .all<{ name: string }>(
      `SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY name`,
    )
    .map(({ name }) => name)

export const columnsIn = (db: Database, table: string): ColumnInfo[] =>
  db.all<ColumnInfo>(`PRAGMA table_info(${quoted(table)})`)

/**
 * True when the layout's table is there and can be written. Whorl's own may be absent; one of the person's
 * may not. Columns that the layout does not know are welcome.
 */
export function checkTable(db: Database, layout: Layout, unlike: (what: string) => Error): boolean {
  const { table } = layout
  const is = db.get<{ type: string }>('SELECT type FROM sqlite_schema WHERE name = $table COLLATE NOCASE', {
    table,
  })
  if (!is && layout.own) return false
  if (!is) throw unlike(`it has no table ${table}`)
  if (is.type !== 'table') throw unlike(`${table} is a ${is.type} there, not a table`)
  const info = columnsIn(db, table)
  const wanted = fieldsOf(layout).map(field => layout.columns[field]!)
  const missing = wanted.find(name => !info.some(column => column.name === name))
  if (missing) throw unlike(`the table ${table} has no column ${missing}`)
  const primary = info.filter(column => column.pk > 0).map(column => column.name)
  if (table === ownTable && layout.own && primary.toSorted().join() !== 'paddle,set_up')
    throw unlike(`the table ${table} is not keyed by paddle and set_up`)
  const demanding = layout.own ? wantsMore(info, layout) : null
  if (demanding !== null) throw unlike(demanding)
  return true
}

/** Why a row cannot be added: a column of the person's that must have a value. */
export function wantsMore(info: readonly ColumnInfo[], layout: Layout): string | null {
  const mapped = fieldsOf(layout).map(field => layout.columns[field])
  // A lone INTEGER key fills itself in (sqlite.org/autoinc.html).
  const ownKey = info.filter(column => column.pk > 0).length === 1
  const demanding = info.find(
    ({ name, type, pk, notnull, dflt_value }) =>
      notnull === 1 &&
      dflt_value === null &&
      !mapped.includes(name) &&
      !(pk === 1 && ownKey && /^INTEGER$/i.test(type)),
  )
  return demanding
    ? `the table ${layout.table} wants a value for ${demanding.name}, which Whorl does not have`
    : null
}
