import { copyFileSync, existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { previewExport, writeExport } from '../../../electron/export/export.ts'
import { rawDatabase } from '../store/raw-database.ts'
import { rejectedBy, temporaryFolder, temporaryWorkspace } from '../store/temporary.ts'
import { fillWorkspace } from './filled-workspace.ts'
import { readElsewhere } from './read-elsewhere.ts'

function filled() {
  const { workspace } = temporaryWorkspace()
  fillWorkspace(workspace)
  return workspace
}
const newTarget = () => join(temporaryFolder(), 'ratings é 🎾.sqlite')

describe('a ratings database', () => {
  it('that a killed program left half written is read as it was before', async () => {
    const workspace = filled()
    const target = newTarget()
    const left = newTarget()
    await writeExport(workspace, target)
    // What a kill leaves: pages already written over, and the journal that holds the old ones.
    const killed = rawDatabase(
      target,
    ).run(`PRAGMA cache_size = 1; BEGIN IMMEDIATE; UPDATE whorl_spin SET hits = 99;
      CREATE TABLE filler AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 2000)
      SELECT i, hex(randomblob(500)) AS text FROM n`)
    for (const end of ['', '-journal']) copyFileSync(`${target}${end}`, `${left}${end}`)
    killed.close()
    expect((await previewExport(workspace, left)).lines.every(line => line.action !== 'change')).toBe(true)
    expect(existsSync(`${left}-journal`)).toBe(false)
    expect(readElsewhere(left, `SELECT hits FROM whorl_spin WHERE paddle = 'Heron 14'`)).toEqual([
      { hits: 3 },
    ])
  })

  it('holds every field, unrounded, as another program reads it', async () => {
    const workspace = filled()
    const target = newTarget()
    const heron = (await writeExport(workspace, target)).lines.find(line => line.paddle === 'Heron 14')!
      .after!
    expect(readElsewhere(target, `SELECT * FROM whorl_spin WHERE paddle = 'Heron 14'`)).toEqual([
      {
        paddle: 'Heron 14',
        set_up: 'stock',
        mean_rpm: heron.meanRpm,
        band_low_rpm: heron.band.lowRpm,
        band_high_rpm: heron.band.highRpm,
        band_level: 0.95,
        hits: 3,
        flag: 'clear',
        ceiling_limit: null,
        settled_reason: '',
        capture_fps: '240',
        method_version: '1',
        date: '2026-05-31',
        evidence: heron.evidence,
      },
    ])
    // The mean of three hits that are known alike, by hand: (2300.123456789 + 2340.5 + 2310.25) / 3.
    expect(heron.meanRpm).toBeCloseTo(2316.957818929667, 9)
    expect(readElsewhere(target, 'PRAGMA integrity_check')).toEqual([{ integrity_check: 'ok' }])
  })

  it('of the person’s keeps its other tables, and its own columns in ours', async () => {
    const workspace = filled()
    const target = newTarget()
    rawDatabase(target)
      .run(`CREATE TABLE ranking (paddle, place); INSERT INTO ranking VALUES ('Heron 14', 1);
        CREATE VIEW top AS SELECT * FROM ranking; PRAGMA user_version = 9; PRAGMA application_id = 5`)
      .close()
    await writeExport(workspace, target)
    rawDatabase(target)
      .run(`ALTER TABLE whorl_spin ADD COLUMN colour TEXT; UPDATE whorl_spin SET colour = 'red', hits = 99`)
      .close()
    const plan = await writeExport(workspace, target)
    expect(plan.lines.filter(line => line.action === 'change')).toHaveLength(2)
    expect(readElsewhere(target, 'SELECT hits, colour FROM whorl_spin ORDER BY paddle')).toEqual([
      { hits: 2, colour: 'red' },
      { hits: 3, colour: 'red' },
    ])
    expect(readElsewhere(target, 'SELECT * FROM top')).toEqual([{ paddle: 'Heron 14', place: 1 }])
    expect(readElsewhere(target, 'PRAGMA user_version')).toEqual([{ user_version: 9 }])
  })

  it('with a row that Whorl would not write has it changed, not taken for a figure', async () => {
    const workspace = filled()
    const target = newTarget()
    await writeExport(workspace, target)
    rawDatabase(target).run(`UPDATE whorl_spin SET flag = 'fine' WHERE paddle = 'Heron 14'`).close()
    expect(
      (await previewExport(workspace, target)).lines.find(line => line.paddle === 'Heron 14'),
    ).toMatchObject({
      action: 'change',
      before: null,
      after: { flag: 'clear' },
    })
  })

  it.each([
    ['a table that lacks a column', 'CREATE TABLE whorl_spin (paddle, set_up, PRIMARY KEY (paddle, set_up))'],
    ['a view by that name', 'CREATE VIEW whorl_spin AS SELECT 1 AS paddle'],
  ])('with %s is refused and stays as it was', async (_case, sql) => {
    const workspace = filled()
    const target = newTarget()
    rawDatabase(target).run(sql).close()
    const bytes = readFileSync(target)
    for (const attempt of [previewExport, writeExport])
      expect(await rejectedBy(() => attempt(workspace, target))).toMatchObject({ code: 'target-unlike' })
    expect(readFileSync(target).equals(bytes)).toBe(true)
  })

  it.each([
    ['not keyed by paddle and set-up', 'CREATE TABLE copy AS SELECT * FROM whorl_spin', /not keyed/],
    [
      'wanting what Whorl does not have',
      `CREATE TABLE copy (${['paddle', 'set_up', 'mean_rpm', 'band_low_rpm', 'band_high_rpm', 'band_level', 'hits', 'flag', 'ceiling_limit', 'settled_reason', 'capture_fps', 'method_version', 'date', 'evidence'].join(', ')}, price NOT NULL, PRIMARY KEY (paddle, set_up))`,
      /wants a value for price/,
    ],
  ])('with a table %s is refused', async (_case, copy, said) => {
    const workspace = filled()
    const target = newTarget()
    await writeExport(workspace, target)
    rawDatabase(target).run(`${copy}; DROP TABLE whorl_spin; ALTER TABLE copy RENAME TO whorl_spin`).close()
    await expect(writeExport(workspace, target)).rejects.toThrow(said)
  })

  it('that is locked is named, before and while writing, and nothing is written', async () => {
    const workspace = filled()
    const target = newTarget()
    await writeExport(workspace, target)
    const other = rawDatabase(target).run('BEGIN EXCLUSIVE')
    for (const attempt of [previewExport, writeExport])
      expect(await rejectedBy(() => attempt(workspace, target))).toMatchObject({ code: 'target-locked' })
    other.run('ROLLBACK').close()
    expect((await previewExport(workspace, target)).lines.some(line => line.action === 'change')).toBe(false)
  })
})
