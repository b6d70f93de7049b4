import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import type { Mapping } from '../../../core/contract/exchange.ts'
import { previewExport, undoExport, writeExport } from '../../../electron/export/export.ts'
import { guessMapping } from '../../../electron/export/guess-mapping.ts'
import { rawDatabase } from '../store/raw-database.ts'
import { rejectedBy, temporaryFolder, temporaryWorkspace } from '../store/temporary.ts'
import { fillWorkspace } from './filled-workspace.ts'
import { readElsewhere } from './read-elsewhere.ts'

function filled() {
  const { workspace } = temporaryWorkspace()
  return { workspace, ...fillWorkspace(workspace) }
}
const actions = async (plan: ReturnType<typeof previewExport>) =>
  (await plan).lines.map(line => `${line.action} ${line.paddle}`).toSorted()

describe('a SQLite table of the person’s', () => {
  it('has mapped columns written, whole numbers rounded, all else left; and put back', async () => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), 'mine.sqlite')
    const table = 'my "best" paddles'
    rawDatabase(path)
      .run(`CREATE TABLE "my ""best"" paddles" (id INTEGER PRIMARY KEY, "Paddle" TEXT, "Spin; rpm" INT, low, brand TEXT DEFAULT 'x');
        INSERT INTO "my ""best"" paddles" VALUES (1, 'Heron 14', 2000, 'about 1990', 'a'), (2, 'Tern', NULL, NULL, 'b')`)
      .close()
    const all = 'SELECT * FROM "my ""best"" paddles" ORDER BY id'
    const before = readElsewhere(path, all)
    const mapping: Mapping = {
      table,
      columns: { paddle: 'Paddle', mean_rpm: 'Spin; rpm', band_low_rpm: 'low' },
      names: [],
    }
    const plan = await writeExport(workspace, { target: path, mapping })
    const heron = plan.lines.find(line => line.paddle === 'Heron 14')!
    expect(heron.changes).toEqual([
      { column: 'Spin; rpm', before: 2000, after: 2317 },
      { column: 'low', before: 'about 1990', after: heron.after!.band.lowRpm },
    ])
    expect(readElsewhere(path, all)).toEqual([
      { ...before[0], 'Spin; rpm': 2317, low: heron.after!.band.lowRpm },
      before[1],
      { id: 3, Paddle: 'Avocet 16', 'Spin; rpm': expect.any(Number), low: expect.any(Number), brand: 'x' },
    ])
    expect(await actions(previewExport(workspace, path))).toContain('same Heron 14')
    await undoExport(workspace, path)
    expect(readElsewhere(path, all)).toEqual(before)
  })

  it('without a column for the set-up takes the stock one alone', async () => {
    const { workspace } = filled()
    const heron = workspace.paddles().find(paddle => paddle.name === 'Heron 14')!
    const weighted = workspace.addSetUp(heron.id, { name: 'weighted', notes: '' }).setUps[1]!
    workspace.assignHit(workspace.hits({}).find(hit => hit.paddle === 'Heron 14')!.hitId, weighted.id)
    const path = join(temporaryFolder(), 'mine.sqlite')
    rawDatabase(path).run('CREATE TABLE p (paddle, rpm)').close()
    const mapping: Mapping = { table: 'p', columns: { paddle: 'paddle', mean_rpm: 'rpm' }, names: [] }
    const { lines } = await writeExport(workspace, { target: path, mapping })
    expect(lines.find(line => line.setUp === 'weighted')).toMatchObject({ action: 'held-back' })
    expect(readElsewhere(path, 'SELECT count(*) AS n FROM p')).toEqual([{ n: 2 }])
  })
})

describe('names that almost match', () => {
  it('are held back and asked about; the answer is kept with the mapping', async () => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), 'mine.csv')
    writeFileSync(path, 'Paddle,Spin rpm\r\nheron-14,1\r\nMerlin Y,2\r\n')
    const plan = await previewExport(workspace, path)
    expect(plan.lines.find(line => line.paddle === 'Heron 14')).toMatchObject({
      action: 'held-back',
      almost: ['heron-14'],
    })
    const names = [{ paddle: 'Heron 14', as: 'heron-14' }]
    await writeExport(workspace, { target: path, mapping: { ...plan.mapping!, names } })
    const { data } = Papa.parse<Record<string, string>>(readFileSync(path, 'utf8'), {
      header: true,
      skipEmptyLines: true,
    })
    expect(data.map(row => row.Paddle)).toEqual(['heron-14', 'Merlin Y', 'Avocet 16'])
    expect(Number(data[0]!['Spin rpm'])).toBeCloseTo(2316.957818929667, 9)
    expect(await actions(previewExport(workspace, path))).toContain('same Heron 14')
    await undoExport(workspace, path)
    expect(readFileSync(path, 'utf8')).toBe('Paddle,Spin rpm\r\nheron-14,1\r\nMerlin Y,2\r\n')
    expect(readdirSync(dirname(path))).toEqual(['mine.csv'])
  })

  it('as another paddle get a row of their own', async () => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), 'mine.csv')
    writeFileSync(path, 'Paddle,Spin rpm\r\nheron-14,1\r\n')
    const { mapping } = await previewExport(workspace, path)
    const names = [{ paddle: 'Heron 14', as: 'Heron 14' }]
    const { lines } = await writeExport(workspace, { target: path, mapping: { ...mapping!, names } })
    expect(lines.find(line => line.paddle === 'Heron 14')).toMatchObject({ action: 'add' })
  })
})

describe('a sheet of text', () => {
  it('with decimal commas gets decimal commas', async () => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), 'mine.csv')
    writeFileSync(path, '\ufeffPaddle;Spin rpm;Price\nHeron 14;1500,5;9,90\n')
    await writeExport(workspace, path)
    expect(readFileSync(path, 'utf8')).toMatch(
      /^\ufeffPaddle;Spin rpm;Price\nHeron 14;2316,957818929\d+;9,90\nAvocet 16;\d+(,\d+)?;\n$/,
    )
  })

  it('as JSON keeps what Whorl does not know', async () => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), 'mine.json')
    writeFileSync(path, JSON.stringify([{ paddle: 'Heron 14', spin: 1, tags: ['a'], __proto__x: null }]))
    const mapping: Mapping = { table: '', columns: { paddle: 'paddle', mean_rpm: 'spin' }, names: [] }
    await writeExport(workspace, { target: path, mapping })
    const [heron, avocet] = JSON.parse(readFileSync(path, 'utf8'))
    expect(heron).toEqual({
      paddle: 'Heron 14',
      spin: expect.closeTo(2316.9578, 3),
      tags: ['a'],
      __proto__x: null,
    })
    expect(avocet).toEqual({ paddle: 'Avocet 16', spin: expect.any(Number) })
  })

  it('as new JSON holds every field and is the same the second time', async () => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), 'new.json')
    await writeExport(workspace, path)
    expect(JSON.parse(readFileSync(path, 'utf8'))[1]).toMatchObject({
      paddle: 'Heron 14',
      ceiling_limit: null,
      hits: 3,
    })
    expect(await actions(previewExport(workspace, path))).toContain('same Heron 14')
  })

  it('without a column like spin says so', async () => {
    const { workspace } = filled()
    const path = join(temporaryFolder(), 'mine.csv')
    writeFileSync(path, 'Paddle,Price\r\nHeron 14,1\r\n')
    expect(await rejectedBy(() => previewExport(workspace, path))).toMatchObject({ code: 'target-unlike' })
  })
})

describe('headers suggest', () => {
  it.each([
    [['Paddle', 'Spin (RPM)', 'Hits'], { paddle: 'Paddle', mean_rpm: 'Spin (RPM)', hits: 'Hits' }],
    [['Model', 'Setup', 'Avg spin'], { paddle: 'Model', set_up: 'Setup', mean_rpm: 'Avg spin' }],
    [
      ['paddle_name', 'rpm', 'rpm low', 'rpm high'],
      { paddle: 'paddle_name', mean_rpm: 'rpm', band_low_rpm: 'rpm low', band_high_rpm: 'rpm high' },
    ],
    [['Paddle', 'Swing weight', 'Twist weight'], { paddle: 'Paddle' }],
  ])('%j', (headers, columns) => {
    expect(guessMapping('t', headers)?.columns).toEqual(columns)
  })
  it('nothing without a paddle', () => {
    expect(guessMapping('t', ['a', 'b'])).toBeNull()
  })
})
