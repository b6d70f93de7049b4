import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { Database } from '../../../electron/store/database.ts'
import { formOf, migrate } from '../../../electron/store/migrate.ts'
import { migrations } from '../../../electron/store/migrations.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { rawDatabase } from './raw-database.ts'
import { sampleReading } from './sample-reading.ts'
import { temporaryFolder, tickingClock } from './temporary.ts'

function open(file: string) {
  const db = new Database(file, { readOnly: false, onTrouble: (_, cause) => cause as Error })
  onTestFinished(() => db.close())
  return db
}
const newFile = () => join(temporaryFolder(), 'w.sqlite')
const schemaOf = (db: Database) =>
  db.all<{ sql: string }>('SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name').map(r => r.sql)

/** Rows that the first form could hold, one in each table. A later form must still have them. */
const rowsOfForm1 = `
  INSERT INTO paddle VALUES ('p', 'Heron 14', '', '2026-05-31T09:00:00Z');
  INSERT INTO set_up VALUES ('u', 'p', 'stock', '', '2026-05-31T09:00:00Z');
  INSERT INTO session VALUES ('s', '2026-05-31', 'Bench 2', 'Kestrel', 240, 5e-5, 0.0005, NULL, NULL, NULL,
    'Outdoor', 0.074, 'Launcher', 5000, NULL, '', '2026-05-31T09:00:00Z');
  INSERT INTO clip VALUES ('c', 's', 'a.mp4', '/a.mp4', NULL, NULL, NULL, x'', 120, '2026-05-31T09:00:00Z');
  INSERT INTO hit VALUES ('h', 'c', 'u', 3, 20, 'clockwise',
    '{"rpm":2300,"sense":"clockwise","reason":"drive"}', 'held-back', 'blurred', 'note', 1, 1,
    '2026-05-31T09:00:00Z');
  INSERT INTO mark VALUES ('h', 'logo', 'point', 1);
  INSERT INTO outline VALUES ('h', 3, 100, 50, 20);
  INSERT INTO sighting VALUES ('h', 'logo', 3, 'point', 101, 52, NULL);
  INSERT INTO step VALUES ('h', 1, '{"kind":"set-sense","sense":"clockwise"}',
    '[{"kind":"set-sense","sense":null}]', '2026-05-31T09:00:00Z');
  INSERT INTO recent_target VALUES ('/ratings.sqlite', '2026-05-31T09:00:00Z');
`

describe('a workspace file of an older form', () => {
  it.each(migrations.map((_, index) => index + 1))('form %i opens with all its work', form => {
    const file = newFile()
    const raw = rawDatabase(file)
    for (const [index, migration] of migrations.slice(0, form).entries()) {
      raw.run(migration)
      if (index === 0) raw.run(rowsOfForm1)
    }
    raw.run(`PRAGMA user_version = ${form}`).close()

    const workspace = openWorkspace(file, { now: tickingClock() })
    onTestFinished(() => workspace.close())
    expect(workspace.paddles()).toEqual([
      { id: 'p', name: 'Heron 14', notes: '', setUps: [{ id: 'u', name: 'stock', notes: '' }] },
    ])
    expect(workspace.session('s')).toMatchObject({ place: 'Bench 2', clips: 1, hits: 1, heldBack: 1 })
    const hit = workspace.hit('h')
    expect(hit.row).toMatchObject({ paddle: 'Heron 14', notes: 'note', stale: false, reading: null })
    expect(hit.marks).toEqual({
      window: { fromFrame: 3, toFrame: 20 },
      marks: [{ id: 'logo', kind: 'point', symmetryOrder: 1 }],
      outlines: [{ frame: 3, xPx: 100, yPx: 50, radiusPx: 20 }],
      sightings: [{ kind: 'point', frame: 3, mark: 'logo', xPx: 101, yPx: 52 }],
      sense: 'clockwise',
      settled: { rpm: 2300, sense: 'clockwise', reason: 'drive' },
      verdict: { state: 'held-back', reason: 'blurred' },
    })
    expect(workspace.undo('h').marks.sense).toBeNull()
    expect(workspace.recentTargets()).toEqual(['/ratings.sqlite'])
  })

  it('lists its readings as it lists new ones', () => {
    const file = newFile()
    const reading = sampleReading({ rpm: 1618.25, counted: null })
    const raw = rawDatabase(file).run(`${migrations[0]!} ${rowsOfForm1}
      INSERT INTO reading VALUES ('h', '${JSON.stringify(reading)}', '1', 1, 'd', '2026-05-31T09:00:00Z')`)
    raw.run('PRAGMA user_version = 1').close()
    const workspace = openWorkspace(file, { now: tickingClock() })
    onTestFinished(() => workspace.close())
    const old = workspace.hits({})[0]!.reading
    expect(old).toEqual({ rpm: 1618.25, band: reading.band, flag: 'clear', counted: null })
    workspace.saveReading('h', reading, '1')
    expect(workspace.hits({})[0]!.reading).toEqual(old)
  })

  it('has the same tables in the end as a new one, whichever form it began with', () => {
    const fresh = open(newFile())
    migrate(fresh, migrations)
    for (let form = 1; form <= migrations.length; form++) {
      const old = open(newFile())
      migrate(old, migrations.slice(0, form))
      expect(formOf(old)).toBe(form)
      migrate(old, migrations)
      expect(formOf(old)).toBe(migrations.length)
      expect(schemaOf(old)).toEqual(schemaOf(fresh))
    }
  })
})

describe('the steps from form to form', () => {
  it('are each taken once, in order', () => {
    const db = open(newFile())
    migrate(db, ['CREATE TABLE a (x)', 'INSERT INTO a VALUES (1)'])
    migrate(db, ['CREATE TABLE a (x)', 'INSERT INTO a VALUES (1)', 'UPDATE a SET x = x + 1'])
    expect(db.all<{ x: number }>('SELECT x FROM a').map(row => row.x)).toEqual([2])
    expect(formOf(db)).toBe(3)
  })

  it('leave the form before a step that fails, whole', () => {
    const db = open(newFile())
    expect(() => migrate(db, ['CREATE TABLE a (x)', 'INSERT INTO a VALUES (1); no sql'])).toThrow()
    expect(formOf(db)).toBe(1)
    expect(db.all('SELECT x FROM a')).toEqual([])
  })
})
