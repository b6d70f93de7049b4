import type pg from 'pg'
import type { Field } from '../../core/contract/exchange.ts'
import type { NumberKept } from './fit-number.ts'
import { fieldsOf, type Layout, ownTable } from './layout.ts'
import { quoted } from './sql-names.ts'

export type TableColumn = { name: string; type: string; mustHave: boolean }
/** `sql` is the table's name as SQL takes it; `table` as it is shown, with its schema where that is not the usual one. */
export type TableThere = { table: string; sql: string; columns: TableColumn[] }

const look = `
  SELECT n.nspname AS schema, n.nspname = current_schema() AS usual, c.relname AS name, a.attname AS column,
    format_type(a.atttypid, a.atttypmod) AS type,
    a.attnotnull AND NOT a.atthasdef AND a.attidentity = '' AS demanding
  FROM pg_catalog.pg_class c JOIN pg_catalog.pg_namespace n ON n.oid = c.relnamespace
    JOIN pg_catalog.pg_attribute a ON a.attrelid = c.oid
  WHERE c.relkind IN ('r', 'p') AND a.attnum > 0 AND NOT a.attisdropped
    AND n.nspname NOT IN ('pg_catalog', 'information_schema', 'crdb_internal', 'pg_extension', 'whorl_queue')
    AND n.nspname NOT LIKE 'pg\\_%'
  ORDER BY n.nspname, c.relname, a.attnum`

type LookRow = {
  schema: string
  usual: string
  name: string
  column: string
  type: string
  demanding: string
}

/** All tables that are there. */
export async function tablesOf(client: pg.Client): Promise<TableThere[]> {
  const tables = new Map<string, TableThere>()
  for (const row of (await client.query<LookRow>(look)).rows) {
    const table = row.usual === 't' ? row.name : `${row.schema}.${row.name}`
    const sql = `${quoted(row.schema)}.${quoted(row.name)}`
    const there = tables.get(table) ?? { table, sql, columns: [] }
    there.columns.push({ name: row.column, type: row.type, mustHave: row.demanding === 't' })
    tables.set(table, there)
  }
  return [...tables.values()]
}

/** The layout's table. Whorl's own may be absent (null), one of the person's may not. */
export async function tableFor(
  client: pg.Client,
  layout: Layout,
  unlike: (what: string) => Error,
): Promise<TableThere | null> {
  const there = (await tablesOf(client)).find(({ table }) => table === layout.table)
  if (!there && layout.own && layout.table === ownTable) return null
  if (!there) throw unlike(`it has no table ${layout.table}`)
  const missing = fieldsOf(layout).find(
    field => !there.columns.some(({ name }) => name === layout.columns[field]),
  )
  if (missing) throw unlike(`the table ${layout.table} has no column ${layout.columns[missing]}`)
  return there
}

/** Why a row cannot be added: a column of the person's that must have a value. */
export function wantsMore({ table, columns }: TableThere, layout: Layout): string | null {
  const mapped = fieldsOf(layout).map(field => layout.columns[field])
  const demanding = columns.find(({ name, mustHave }) => mustHave && !mapped.includes(name))
  return demanding
    ? `the table ${table} wants a value for ${demanding.name}, which Whorl does not have`
    : null
}

export const typeOf = ({ columns }: TableThere, layout: Layout, field: Field): string =>
  columns.find(({ name }) => name === layout.columns[field])!.type

/** By the type's own words, as `numeric(8,1)`. */
export function numberKeptBy(type: string): NumberKept {
  if (/^(small|big)?int/.test(type)) return { kind: 'decimals', decimals: 0 }
  if (type === 'real') return { kind: 'single' }
  const [, decimals] = /^numeric\(\d+,(\d+)\)/.exec(type) ?? []
  return decimals === undefined ? { kind: 'all' } : { kind: 'decimals', decimals: Number(decimals) }
}
