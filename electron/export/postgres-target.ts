import type pg from 'pg'
import type { Cells, Field } from '../../core/contract/exchange.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { columns } from './columns.ts'
import { fitNumber } from './fit-number.ts'
import { columnOf, fieldsOf, type Layout } from './layout.ts'
import { inTransaction } from './postgres-connection.ts'
import { placeOfString } from './postgres-place.ts'
import { deleteRows, insertRows, updateRows } from './postgres-rows.ts'
import { numberKeptBy, type TableThere, tableFor, tablesOf, typeOf, wantsMore } from './postgres-tables.ts'
import { gridOfRows } from './sheet.ts'
import { quoted } from './sql-names.ts'
import {
  changedRows,
  type ExistingRow,
  type Found,
  isNamed,
  movedSince,
  nothingYet,
  type Target,
  twiceIn,
  type WayBack,
} from './target.ts'

/**
 * A database on a server that speaks PostgreSQL's protocol, by its connection string. Writers at once do
 * not lose each other's work: each write is one serializable transaction, done anew when another came first.
 */
export function postgresTarget(connectionString: string): Target {
  const place = placeOfString(connectionString)
  const unlike = (what: string) => new WhorlError('target-unlike', { path: place, what })

  async function found(client: pg.Client, table: TableThere | null, layout: Layout): Promise<Found> {
    if (table === null) return nothingYet
    return {
      rows: await rowsOf(client, table, layout, unlike),
      kept: (field, value) => fitNumber(numberKeptBy(typeOf(table, layout, field)), value),
      cannotAdd: wantsMore(table, layout),
    }
  }

  return {
    kind: 'postgres',
    place,
    tables: () =>
      inTransaction(connectionString, 'read', async client =>
        (await tablesOf(client)).map(({ table, columns }) => ({
          table,
          columns: columns.map(({ name }) => name),
        })),
      ),
    grid: table =>
      inTransaction(connectionString, 'read', async client => {
        const there = (await tablesOf(client)).find(one => one.table === table)
        if (!there) throw unlike(`it has no table ${table}`)
        const { rows } = await client.query(`SELECT * FROM ${there.sql}`)
        return gridOfRows(
          there.columns.map(({ name }) => name),
          rows,
        )
      }),
    read: layout =>
      inTransaction(connectionString, 'read', async client =>
        found(client, await tableFor(client, layout, unlike), layout),
      ),
    write: (layout, choose) => {
      // A connection lost while committing leaves open whether it was done; the next try then finds it done.
      let tried: WayBack | null = null
      return inTransaction(connectionString, 'write', async client => {
        const there = await tableFor(client, layout, unlike)
        const before = await found(client, there, layout)
        const chosen = choose(before)
        if (chosen.length === 0) return tried
        if (there === null) await client.query(create)
        const table = there ?? (await tableFor(client, layout, unlike))!
        await insertRows(
          client,
          table,
          layout,
          chosen.filter(row => row.isNew).map(({ cells }) => cells),
        )
        await updateRows(
          client,
          table,
          layout,
          chosen.filter(row => !row.isNew),
        )
        tried = {
          how: 'rows',
          layout,
          madeTable: there === null,
          madeFile: false,
          rows: changedRows(chosen, before.rows),
        }
        return tried
      })
    },
    undo: async wayBack => {
      if (wayBack.how !== 'rows') throw new Error('Not the way back of a table')
      const { layout, rows, madeTable } = wayBack
      await inTransaction(connectionString, 'write', async client => {
        const table = await tableFor(client, layout, unlike)
        const moved = movedSince(rows, table ? await rowsOf(client, table, layout, unlike) : [])
        if (moved !== null || table === null)
          throw new WhorlError('undo-refused', { what: moved ?? 'its table is gone' })
        await deleteRows(
          client,
          table,
          layout,
          rows.filter(({ before }) => before === null),
        )
        await updateRows(
          client,
          table,
          layout,
          rows.flatMap(({ before, ...key }) => (before === null ? [] : [{ ...key, cells: before }])),
        )
        if (madeTable && (await rowsOf(client, table, layout, unlike)).length === 0)
          await client.query(`DROP TABLE ${table.sql}`)
      })
    },
  }
}

const types = { TEXT: 'text', REAL: 'double precision', INTEGER: 'integer' }
const create = `
  CREATE TABLE whorl_spin (
    ${columns.map(({ name, type }) => `${quoted(name)} ${types[type]}${name === 'ceiling_limit' ? '' : ' NOT NULL'}`).join(',\n    ')},
    PRIMARY KEY (paddle, set_up)
  )`

async function rowsOf(
  client: pg.Client,
  table: TableThere,
  layout: Layout,
  unlike: (what: string) => Error,
): Promise<ExistingRow[]> {
  const names = fieldsOf(layout).map(field => `${quoted(columnOf(layout, field))} AS ${quoted(field)}`)
  const { rows } = await client.query<Partial<Record<Field, string | number | null>>>(
    `SELECT ${names.join(', ')} FROM ${table.sql}`,
  )
  const found = rows
    .map((cells: Cells) => ({ paddle: String(cells.paddle ?? ''), setUp: String(cells.set_up ?? ''), cells }))
    .filter(isNamed)
  const twice = twiceIn(found)
  if (twice !== null) throw unlike(twice)
  return found
}
