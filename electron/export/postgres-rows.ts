import type pg from 'pg'
import type { Cells, Field } from '../../core/contract/exchange.ts'
import { columnOf, keyCells, type Layout } from './layout.ts'
import { type TableThere, typeOf } from './postgres-tables.ts'
import { quoted } from './sql-names.ts'

/** Many rows go in one statement: a server far away is asked seldom. At most 65,535 values in one. */
const rowsAtOnce = 500

export async function insertRows(
  client: pg.Client,
  table: TableThere,
  layout: Layout,
  rows: readonly Cells[],
) {
  for (const { some, fields, values, tuples } of batches(rows)) {
    const names = fields.map(field => quoted(columnOf(layout, field)))
    const { rowCount } = await client.query(
      `INSERT INTO ${table.sql} (${names.join(', ')}) VALUES ${tuples}`,
      values,
    )
    expectRows(rowCount, some)
  }
}

type Keyed = { paddle: string; setUp: string }

export async function updateRows(
  client: pg.Client,
  table: TableThere,
  layout: Layout,
  rows: readonly (Keyed & { cells: Cells })[],
) {
  const withKeys = rows.map(({ cells, ...key }) => ({ ...cells, ...keyCells(layout, key) }))
  for (const { some, fields, values, tuples } of batches(withKeys)) {
    const isKey = (field: Field) => field === 'paddle' || field === 'set_up'
    const sets = fields.filter(field => !isKey(field)).map(field => setTo(table, layout, field))
    const where = fields.filter(isKey).map(field => `t.${setTo(table, layout, field)}`)
    const { rowCount } = await client.query(
      `UPDATE ${table.sql} AS t SET ${sets.join(', ')} FROM (VALUES ${tuples}) AS v (${fields.map(quoted).join(', ')})
       WHERE ${where.join(' AND ')}`,
      values,
    )
    expectRows(rowCount, some)
  }
}

export async function deleteRows(
  client: pg.Client,
  table: TableThere,
  layout: Layout,
  rows: readonly Keyed[],
) {
  for (const { some, fields, values, tuples } of batches(rows.map(row => keyCells(layout, row)))) {
    const keys = fields.map(field => quoted(columnOf(layout, field)))
    const typed = fields.map(field => `CAST(v.${quoted(field)} AS ${typeOf(table, layout, field)})`)
    const { rowCount } = await client.query(
      `DELETE FROM ${table.sql} WHERE (${keys.join(', ')}) IN
         (SELECT ${typed.join(', ')} FROM (VALUES ${tuples}) AS v (${fields.map(quoted).join(', ')}))`,
      values,
    )
    expectRows(rowCount, some)
  }
}

const setTo = (table: TableThere, layout: Layout, field: Field) =>
  `${quoted(columnOf(layout, field))} = CAST(v.${quoted(field)} AS ${typeOf(table, layout, field)})`

/** Rows of one shape in portions, as parameters: none of what a person typed becomes SQL. */
function* batches(rows: readonly Cells[]) {
  for (let from = 0; from < rows.length; from += rowsAtOnce) {
    const some = rows.slice(from, from + rowsAtOnce)
    const fields = Object.keys(some[0]!) as Field[]
    const values = some.flatMap(cells => fields.map(field => cells[field] ?? null))
    const tuples = some
      .map((_, i) => `(${fields.map((_, j) => `$${i * fields.length + j + 1}`).join(', ')})`)
      .join(', ')
    yield { some, fields, values, tuples }
  }
}

function expectRows(count: number | null, some: readonly unknown[]): void {
  if (count !== some.length)
    throw new Error(`${some.length} rows were to be written, the server wrote ${count}`)
}
