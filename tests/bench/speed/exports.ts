import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import pg from 'pg'
import { columns } from '../../../electron/export/columns.ts'
import { ownLayout } from '../../../electron/export/layout.ts'
import { openTarget } from '../../../electron/export/open-target.ts'
import { nothingYet } from '../../../electron/export/target.ts'
import { connect } from '../../../electron/store/driver.ts'
import { manyRows } from '../../electron/export/many-rows.ts'
import { postgresServer } from '../../electron/export/postgres-server.ts'
import { type Line, sideBySide } from './side-by-side.ts'

const count = 10_000
const names = columns.map(({ name }) => name)
const fresh = manyRows(count, 1)(nothingYet)
const rows = fresh.map(({ cells }) => names.map(name => cells[name] ?? null))
const create = (real: string) =>
  `CREATE TABLE whorl_spin (${columns.map(({ name, type }) => `${name} ${type === 'REAL' ? real : type}`).join(', ')}, PRIMARY KEY (paddle, set_up))`

function plainSqlite(path: string): void {
  const db = connect(path, false)
  db.exec(`BEGIN; ${create('REAL')}`)
  const insert = db.prepare(`INSERT INTO whorl_spin VALUES (${names.map(name => `$${name}`).join(', ')})`)
  for (const row of rows) insert.run(Object.fromEntries(names.map((name, i) => [name, row[i]])))
  db.exec('COMMIT')
  db.close()
}

/** As fast as the driver does it by its manual: many rows in one statement. */
async function plainPostgres(connectionString: string): Promise<void> {
  const client = new pg.Client({ connectionString })
  await client.connect()
  await client.query(`BEGIN; ${create('double precision')}`)
  for (let from = 0; from < count; from += 500) {
    const some = rows.slice(from, from + 500)
    const tuples = some.map((_, i) => `(${names.map((_, j) => `$${i * names.length + j + 1}`).join(', ')})`)
    await client.query(`INSERT INTO whorl_spin VALUES ${tuples.join(', ')}`, some.flat())
  }
  await client.query('COMMIT')
  await client.end()
}

/** A new file each time: what is there already would be changed, not added. */
const sqlite: Line = {
  name: 'exportSqlite',
  what: `${count} new rows into a SQLite database`,
  beside: 'the driver, one transaction',
  isQuick: true,
  measure: async () => {
    const folder = mkdtempSync(join(tmpdir(), 'whorl-bench-'))
    let next = 0
    const file = () => join(folder, `${next++}.sqlite`)
    try {
      return await sideBySide(
        () => openTarget(file(), '').write(ownLayout, () => fresh),
        () => plainSqlite(file()),
        { clock: 'processor', repeats: 12 },
      )
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  },
}

const postgres: Line = {
  name: 'exportPostgres',
  what: `${count} new rows into a PostgreSQL database`,
  beside: 'the driver, 500 rows a statement',
  measure: async () => {
    const server = await postgresServer()
    let next = 0
    const database = async () => {
      const name = `bench_${next++}`
      await server.query(`CREATE DATABASE ${name}`)
      return server.url.replace(/postgres$/, name)
    }
    try {
      const ours = [...Array(5)].map(database)
      const plain = [...Array(5)].map(database)
      await Promise.all([...ours, ...plain])
      return await sideBySide(
        async () => openTarget(await ours.shift()!, '').write(ownLayout, () => fresh),
        async () => plainPostgres(await plain.shift()!),
        { clock: 'wall', repeats: 5 },
      )
    } finally {
      await server.close()
    }
  },
}

export const exports: Line[] = [sqlite, postgres]
