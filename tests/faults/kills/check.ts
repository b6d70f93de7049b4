import assert from 'node:assert/strict'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import Papa from 'papaparse'
import { type Connection, connect } from '../../../electron/store/driver.ts'
import { migrations } from '../../../electron/store/migrations.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { oldHits, writtenPaddles } from './prepare.ts'
import { clickNumber, dayOfRound, markedFrames } from './work.ts'

/** Looks at a file as another program would, without the workspace's own code. */
function looking<T>(file: string, look: (all: (sql: string) => Record<string, unknown>[]) => T): T {
  const db: Connection = connect(file, false)
  try {
    const all = (sql: string) =>
      db
        .prepare(sql)
        .all({})
        .map(row => ({ ...(row as Record<string, unknown>) }))
    assert.deepEqual(all('PRAGMA integrity_check'), [{ integrity_check: 'ok' }])
    assert.deepEqual(all('PRAGMA foreign_key_check'), [])
    return look(all)
  } finally {
    db.close()
  }
}

/** Every click that was said to be saved is there, in order, at most the one in flight more. Answers how many. */
export function checkMarking(file: string, said: number): number {
  const saved = looking(file, all => {
    const [hit] = all('SELECT steps_taken AS taken, (SELECT count(*) FROM step) AS steps FROM hit')
    const taken = hit!.taken as number
    assert.equal(hit!.steps, taken)
    assert.ok(taken === said || taken === said + 1, `${said} clicks were saved, ${taken} are there`)
    for (const { number, edit } of all('SELECT number, edit FROM step ORDER BY number DESC LIMIT 40'))
      assert.deepEqual(JSON.parse(edit as string), clickNumber(number as number))
    return taken
  })
  const workspace = openWorkspace(file, { now: () => new Date() })
  const { hitId } = workspace.hits({})[0]!
  const standing = () => workspace.hit(hitId).marks.sightings.toSorted((a, b) => a.frame - b.frame)
  const latest = standing()
  assert.equal(latest.length, Math.min(saved, markedFrames))
  for (const sighting of latest) {
    const number = saved - ((saved - sighting.frame) % markedFrames)
    assert.deepEqual({ kind: 'place-sighting', sighting }, clickNumber(number))
  }
  if (saved > 0) {
    workspace.undo(hitId)
    assert.notDeepEqual(standing(), latest)
    workspace.redo(hitId)
    assert.deepEqual(standing(), latest)
  }
  workspace.close()
  return saved
}

export type Written = { sqlite: string | null; csv: string | null }

/**
 * Each target holds all rows of one round: the last one that was done, or the one in flight. Answers the
 * day that each says, null where nothing was written yet. `began` are the rounds that the host said it began,
 * `before` what stood in the targets when it started.
 */
export function checkExport(folder: string, began: number[], before: Written): Written {
  const found = { sqlite: inSqlite(join(folder, 'ratings.sqlite')), csv: inCsv(join(folder, 'ratings.csv')) }
  const last = began.at(-1)
  for (const target of ['sqlite', 'csv'] as const) {
    const done = began.length > 1 ? dayOfRound(last! - 1) : before[target]
    const due = [done, ...(last === undefined ? [] : [dayOfRound(last)])]
    assert.ok(
      due.includes(found[target]),
      `${target}: ${found[target]} was written, ${due.join(' or ')} was due`,
    )
  }
  return found
}

function inSqlite(path: string): string | null {
  if (!existsSync(path)) return null
  return looking(path, all => {
    if (all("SELECT name FROM sqlite_schema WHERE name = 'whorl_spin'").length === 0) return null
    return oneDay(all('SELECT date FROM whorl_spin').map(row => row.date as string))
  })
}

function inCsv(path: string): string | null {
  if (!existsSync(path)) return null
  const table = Papa.parse<{ date: string }>(readFileSync(path, 'utf8'), {
    header: true,
    skipEmptyLines: true,
  })
  assert.deepEqual(table.errors, [])
  return oneDay(table.data.map(row => row.date))
}

function oneDay(days: string[]): string | null {
  if (days.length === 0) return null
  assert.equal(days.length, writtenPaddles)
  assert.equal(new Set(days).size, 1, 'rows of two rounds are mixed')
  return days[0]!
}

/** Every workspace is whole, of one form or the next, and opens with all its work. */
export function checkMigration(folder: string, done: number): void {
  const files = readdirSync(folder)
    .filter(name => name.endsWith('.sqlite'))
    .sort()
  for (const [place, name] of files.entries()) {
    const form = looking(join(folder, name), all => {
      for (const table of ['hit', 'mark', 'sighting', 'step', 'reading'])
        assert.deepEqual(all(`SELECT count(*) AS n FROM ${table}`), [{ n: oldHits }])
      return all('PRAGMA user_version')[0]!.user_version as number
    })
    if (place < done) assert.equal(form, migrations.length)
    if (place > done) assert.equal(form, 1)
    if (place !== done) continue
    const workspace = openWorkspace(join(folder, name), { now: () => new Date() })
    assert.equal(workspace.hits({}).length, oldHits)
    workspace.close()
  }
}

/**
 * A clip that was said to be done has its flight once, read, and no clip has half of one: every frame of its window has
 * an outline, which others may have too, where the picture's edge cuts the ball. Answers how many clips are done.
 */
export function checkReading(file: string, said: readonly string[]): number {
  return looking(file, all => {
    const done = all("SELECT clip_id AS id FROM read_queue WHERE state = 'done'").map(row => row.id as string)
    assert.deepEqual(all("SELECT said FROM read_queue WHERE state = 'failed'"), [])
    for (const id of said) assert.ok(done.includes(id), `${id} was read, and is not done`)
    const hits = all(`SELECT clip_id AS clip, count(*) AS hits, count(reading.hit_id) AS readings,
        count(surface.hit_id) AS surfaces,
        min((SELECT count(*) FROM outline WHERE hit_id = hit.id AND frame BETWEEN from_frame AND to_frame)
          = to_frame - from_frame + 1) AS outlined
      FROM hit LEFT JOIN reading ON reading.hit_id = hit.id LEFT JOIN surface ON surface.hit_id = hit.id
      GROUP BY clip_id`)
    for (const { clip, ...each } of hits)
      assert.deepEqual(each, { hits: 1, readings: 1, surfaces: 1, outlined: 1 }, `the flight of ${clip}`)
    for (const id of done)
      assert.ok(
        hits.some(({ clip }) => clip === id),
        `${id} is done without its flight`,
      )
    return done.length
  })
}
