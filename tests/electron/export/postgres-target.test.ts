import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { importRulesSchema, type Mapping } from '../../../core/contract/exchange.ts'
import { problemOf } from '../../../core/contract/problem.ts'
import { lookAt, previewExport, undoExport, writeExport } from '../../../electron/export/export.ts'
import { ownLayout } from '../../../electron/export/layout.ts'
import { postgresTarget } from '../../../electron/export/postgres-target.ts'
import { undoImport, writeImport } from '../../../electron/import/import.ts'
import { rejectedBy, temporaryWorkspace } from '../store/temporary.ts'
import { fillWorkspace, giveHits } from './filled-workspace.ts'
import { manyRows } from './many-rows.ts'
import { type PostgresServer, postgresServer } from './postgres-server.ts'

let server: PostgresServer
beforeAll(async () => {
  server = await postgresServer()
})
afterAll(() => server?.close())

function filled() {
  const holder = temporaryWorkspace()
  return { ...holder, workspace: holder.workspace, ...fillWorkspace(holder.workspace) }
}

describe('a ratings database on a server', () => {
  it('gets Whorl’s own table, the same the second time, and is as before when undone', async () => {
    const { workspace } = filled()
    const { url, query } = await server.newDatabase()
    const plan = await writeExport(workspace, url)
    const heron = plan.lines.find(line => line.paddle === 'Heron 14')!.after!
    expect(
      await query('SELECT paddle, set_up, mean_rpm, hits, evidence FROM whorl_spin ORDER BY paddle'),
    ).toEqual([
      expect.objectContaining({ paddle: 'Avocet 16', hits: 2 }),
      { paddle: 'Heron 14', set_up: 'stock', mean_rpm: heron.meanRpm, hits: 3, evidence: heron.evidence },
    ])
    const again = await writeExport(workspace, url)
    expect(again.lines.filter(line => line.after).map(line => line.action)).toEqual(['same', 'same'])
    expect(workspace.transfers()).toHaveLength(1)
    await undoExport(workspace, url)
    expect((await lookAt(workspace, url)).tables).toEqual([])
  })

  it('has mapped columns written and nothing else, by what each column can hold', async () => {
    const { workspace } = filled()
    const { url, query } = await server.newDatabase()
    await query(`CREATE SCHEMA lab; CREATE TABLE lab."the ""paddle"" table" (
      id serial PRIMARY KEY, "Paddle name" varchar(80) UNIQUE, "Spin (rpm)" integer, low numeric(8,1), high real,
      n bigint, tested date, price numeric(9,2));
      INSERT INTO lab."the ""paddle"" table" ("Paddle name", "Spin (rpm)", tested, price)
      VALUES ('Heron 14', 2111, '2025-01-02', 199.90), ('Kite 11', 1500, NULL, 5)`)
    const table = 'lab.the "paddle" table'
    const { tables } = await lookAt(workspace, url)
    expect(tables[0]).toMatchObject({
      table,
      guess: { columns: { paddle: 'Paddle name', mean_rpm: 'Spin (rpm)' } },
    })
    const mapping: Mapping = {
      table,
      columns: {
        paddle: 'Paddle name',
        mean_rpm: 'Spin (rpm)',
        band_low_rpm: 'low',
        band_high_rpm: 'high',
        hits: 'n',
        date: 'tested',
      },
      names: [],
    }
    const all = 'SELECT * FROM lab."the ""paddle"" table" ORDER BY id'
    const before = await query(all)
    const plan = await writeExport(workspace, { target: url, mapping })
    const change = plan.lines.find(line => line.paddle === 'Heron 14')!
    expect(change).toMatchObject({ action: 'change' })
    expect(change.changes).toContainEqual({ column: 'Spin (rpm)', before: 2111, after: 2317 })
    const { lowRpm, highRpm } = change.after!.band
    const [heron, kite, avocet] = await query(
      `SELECT *, high::float8 AS high8, tested::text FROM lab."the ""paddle"" table" ORDER BY id`,
    )
    expect(heron).toMatchObject({
      'Spin (rpm)': 2317,
      low: lowRpm.toFixed(1),
      high8: Math.fround(highRpm),
      n: '3',
      tested: '2026-05-31',
      price: '199.90',
    })
    expect(kite).toMatchObject(before[1]!)
    expect(avocet).toMatchObject({ 'Paddle name': 'Avocet 16', price: null })
    const again = await previewExport(workspace, url)
    expect(again.mapping).toEqual(mapping)
    expect(again.lines.filter(line => line.after).map(line => line.action)).toEqual(['same', 'same'])
    await undoExport(workspace, url)
    expect(await query(all)).toEqual(before)
  })

  it('is not undone over what another has changed since', async () => {
    const { workspace } = filled()
    const { url, query } = await server.newDatabase()
    await writeExport(workspace, url)
    await query(`UPDATE whorl_spin SET flag = 'near-ceiling' WHERE paddle = 'Heron 14'`)
    const thrown = problemOf(await rejectedBy(() => undoExport(workspace, url)))
    expect(thrown).toMatchObject({ code: 'undo-refused' })
    expect(thrown.message).toMatch(/flag of Heron 14, stock, was changed since, from clear to near-ceiling/)
    expect(await query('SELECT count(*)::int AS n FROM whorl_spin')).toEqual([{ n: 2 }])
  })

  it.each<[string, (url: string) => string, string]>([
    ['a wrong password', url => url.replace(/:[^:@]+@/, ':wrong-Secret@'), 'server-login'],
    ['a server that is away', url => url.replace(/:\d+\//, ':9/'), 'server-away'],
    ['a name that no server has', url => url.replace('127.0.0.1', 'none.invalid'), 'server-away'],
    ['TLS that the server does not have', url => `${url}?sslmode=verify-full`, 'server-tls'],
    ['a database that is not there', url => `${url}_none`, 'target-unlike'],
    ['a string that is none', () => 'postgres://who:wrong-Secret@[', 'server-string'],
  ])('with %s is told, and no password with it', async (_case, change, code) => {
    const { workspace, file } = filled()
    const { url } = await server.newDatabase()
    for (const attempt of [previewExport, writeExport]) {
      const thrown = await rejectedBy(() => attempt(workspace, change(url)))
      expect(problemOf(thrown)).toMatchObject({ code })
      expect(`${JSON.stringify(problemOf(thrown))} ${(thrown as Error).stack}`).not.toMatch(
        /only-for-tests|wrong-Secret/,
      )
    }
    expect(bytesBeside(file)).not.toContain('only-for-tests')
  })

  it('leaves no password in the workspace', async () => {
    const { workspace, file } = filled()
    const { url } = await server.newDatabase()
    await writeExport(workspace, url)
    expect(workspace.recentTargets()[0]).toMatch(/^postgres:\/\/127\.0\.0\.1:\d+\/ratings%20\d+$/)
    expect(bytesBeside(file)).not.toMatch(/only-for-tests|postgres:postgres@/)
  })

  it('with a missing column, a missing table, or one that asks for more is refused or held back', async () => {
    const { workspace } = filled()
    const { url, query } = await server.newDatabase()
    await query('CREATE TABLE mine (paddle text, rpm float8, brand text NOT NULL)')
    const mapping = (table: string, rpm: string): Mapping => ({
      table,
      columns: { paddle: 'paddle', mean_rpm: rpm },
      names: [],
    })
    const refused = (given: Mapping) =>
      rejectedBy(() => writeExport(workspace, { target: url, mapping: given }))
    expect(await refused(mapping('none', 'rpm'))).toMatchObject({ code: 'target-unlike' })
    expect(await refused(mapping('mine', 'none'))).toMatchObject({ code: 'target-unlike' })
    const { lines } = await writeExport(workspace, { target: url, mapping: mapping('mine', 'rpm') })
    expect(lines.find(line => line.paddle === 'Heron 14')).toMatchObject({
      action: 'held-back',
      reason: expect.stringMatching(/wants a value for brand/),
    })
    expect(await query('SELECT * FROM mine')).toEqual([])
  })

  it('that this user may only read is told', async () => {
    const { workspace } = filled()
    const { url, query } = await server.newDatabase()
    await writeExport(workspace, url)
    await query(`CREATE ROLE reader_of_spin LOGIN PASSWORD 'r'; GRANT SELECT ON whorl_spin TO reader_of_spin`)
    const { setUps } = workspace.createPaddle({ name: 'Osprey', notes: '' })
    giveHits(workspace, [{ setUpId: setUps[0]!.id, rpm: 1800 }], '2026-06-01')
    const reader = url.replace(/\/\/[^@]*@/, `//reader_of_spin:r@`)
    expect(await rejectedBy(() => writeExport(workspace, reader))).toMatchObject({ code: 'target-read-only' })
  })
})

describe('writers at once', () => {
  it('do not lose each other’s work', async () => {
    const { url, query } = await server.newDatabase()
    const target = postgresTarget(url)
    await target.write(ownLayout, manyRows(1, 0))
    const writer = async () => {
      for (let i = 0; i < 5; i++)
        await target.write(ownLayout, ({ rows }) => [
          {
            paddle: 'Kite 0',
            setUp: 'stock',
            isNew: false,
            cells: { hits: Number(rows[0]!.cells.hits) + 1 },
          },
        ])
    }
    await Promise.all([writer(), writer(), writer(), writer()])
    expect(await query('SELECT hits FROM whorl_spin')).toEqual([{ hits: 20 }])
  })

  it('all find one new table, each with its rows', async () => {
    // How two that make a table at once meet is up to chance: several times over.
    for (let time = 0; time < 6; time++) {
      const { url, query } = await server.newDatabase()
      const writers = [0, 1, 2, 3, 4, 5, 6, 7]
      await Promise.all(writers.map(n => postgresTarget(url).write(ownLayout, manyRows(5, n, 5 * n))))
      expect(await query('SELECT count(*)::int AS n FROM whorl_spin')).toEqual([{ n: 40 }])
    }
  })
})

describe('a table of the person’s on a server', () => {
  it('comes in by kind of column and is taken back; its password stays out of the workspace', async () => {
    const { workspace, file } = temporaryWorkspace()
    const { url, query } = await server.newDatabase()
    await query(`CREATE TABLE tested ("Paddle" text, "Power" numeric(6,2), "Rated" bigint, "Bought" date, "Raw" boolean);
      INSERT INTO tested VALUES ('Heron 14', 54.25, 9007199254740991, '2026-05-31', true), ('Kite 11', NULL, 7, NULL, NULL)`)
    const rules = importRulesSchema.parse({})
    const plan = await writeImport(workspace, url, rules)
    expect(plan).toMatchObject({ kind: 'postgres', table: 'tested', paddleColumn: 'Paddle', unclear: [] })
    const values = workspace.metrics().map(({ name, value }) => [name, value])
    expect(values).toHaveLength(5)
    expect(values).toEqual(
      expect.arrayContaining([
        ['Power', 54.25],
        ['Rated', 9007199254740991],
        ['Rated', 7],
        ['Bought', '2026-05-31'],
      ]),
    )
    expect(bytesBeside(file)).not.toContain(new URL(url).password)
    undoImport(workspace, workspace.transfers()[0]!.id)
    expect([workspace.metrics(), workspace.paddles()]).toEqual([[], []])
  })
})

describe('a connection that is lost', () => {
  const backend = `SELECT pid FROM pg_stat_activity WHERE application_name = 'whorl' AND datname = `

  it('in mid-export is made anew, once, and all is written', async () => {
    const { url, query } = await server.newDatabase()
    const writing = postgresTarget(url).write(ownLayout, manyRows(4000, 1))
    await until(async () => {
      const cut = await query(
        `SELECT pg_terminate_backend(pid) AS done FROM (${backend} current_database() AND query LIKE 'INSERT%') one`,
      )
      return cut.some(({ done }) => done)
    })
    expect((await writing)?.rows).toHaveLength(4000)
    expect(await query('SELECT count(*)::int AS n FROM whorl_spin')).toEqual([{ n: 4000 }])
  })

  it('with its server killed leaves nothing half written', async () => {
    const { url, query } = await server.newDatabase()
    const target = postgresTarget(url)
    await target.write(ownLayout, manyRows(3000, 1))
    for (let round = 0; round < 2; round++) {
      const writing = rejectedBy(() => target.write(ownLayout, manyRows(3000, 2)))
      await until(
        async () => (await query(`${backend} current_database() AND query LIKE 'UPDATE%'`)).length > 0,
      )
      await server.kill()
      expect(await writing).toMatchObject({ code: 'server-away' })
      await server.start()
      const hits = await query('SELECT hits, count(*)::int AS n FROM whorl_spin GROUP BY hits')
      // All of the first, or all of the second where the kill came behind the commit.
      expect([[{ hits: 1, n: 3000 }], [{ hits: 2, n: 3000 }]]).toContainEqual(hits)
    }
  })
})

async function until(seen: () => Promise<boolean>): Promise<void> {
  for (let attempt = 0; attempt < 2000; attempt++)
    if (await seen()) return
    else await new Promise(resolve => setTimeout(resolve, 5))
  throw new Error('never seen')
}

const bytesBeside = (file: string) =>
  readdirSync(dirname(file))
    .map(name => readFileSync(join(dirname(file), name), 'latin1'))
    .join('')
