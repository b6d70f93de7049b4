import { mkdirSync, readFileSync, statSync, symlinkSync } from 'node:fs'
import { join } from 'node:path'
import { marksSchema } from '../../core/contract/marks.ts'
import type { Reading } from '../../core/contract/reading.ts'
import { readMarks } from '../../core/spin/read-marks.ts'
import { places } from '../../electron/service/places.ts'
import { type Connection, connect } from '../../electron/store/driver.ts'
import { openWorkspace } from '../../electron/store/open-workspace.ts'
import { clip, session } from '../core/marking/sample-records.ts'

export type Amounts = { sessions: number; clipsEach: number; hitsEach: number; paddles: number }

const sample = 'fast-240-a'
const clicks = 12

/**
 * A workspace as years of work would leave it: sessions of many clips, hits with their marks, steps and
 * readings, each on some paddle. The rows are copies of one hit of a sample clip with another rate each, put
 * in by plain SQL; every clip's file is a link to the sample.
 */
export function fillWorkspace(file: string, folder: string, amounts: Amounts): void {
  const { sessions, clipsEach, hitsEach, paddles } = amounts
  const workspace = openWorkspace(file, { now: () => new Date() })
  for (let n = 0; n < sessions; n++)
    workspace.createSession({ ...session, day: dayNumber(n), place: `Court ${1 + (n % 4)}` })
  for (let n = 0; n < paddles; n++) workspace.createPaddle({ name: `Paddle ${n + 1}`, notes: '' })
  workspace.close()
  const clips = sessions * clipsEach
  const path = linkClips(folder, clips)
  const db = connect(file, false)
  db.exec('PRAGMA synchronous = OFF; BEGIN')
  insert(
    db,
    `INSERT INTO clip (id, session_id, name, path, sha256, probe, timestamps_seconds, added_at)
     SELECT 'c' || i, s.id, printf('hit %05d.mp4', i), $folder || printf('/hit %05d.mp4', i),
       printf('%064x', i), $probe, $times, '2026-05-31T09:00:00.000Z'
     FROM n JOIN (SELECT id, row_number() OVER (ORDER BY day) - 1 AS place FROM session) s
       ON s.place = i / ${clipsEach}`,
    clips,
    {
      folder: path,
      probe: JSON.stringify({ ...clip, path: '', bytes: statSync(samplePath('mp4')).size }),
      times: new Uint8Array(Float64Array.from({ length: clip.frames }, (_, i) => i / 240).buffer),
    },
  )
  insert(
    db,
    `INSERT INTO hit (id, clip_id, set_up_id, from_frame, to_frame, verdict, verdict_reason, notes, revision,
       steps_taken, added_at)
     SELECT 'h' || i, 'c' || (i / ${hitsEach}), s.id, 2 + i % ${hitsEach} * 3, 30 + i % ${hitsEach} * 3,
       CASE WHEN i % 9 = 0 THEN 'open' ELSE 'accepted' END, '', '', ${clicks}, ${clicks},
       '2026-05-31T09:00:00.000Z'
     FROM n JOIN (SELECT id, row_number() OVER (ORDER BY id) - 1 AS place FROM set_up) s
       ON s.place = i % ${paddles}`,
    clips * hitsEach,
    {},
  )
  db.exec(`INSERT INTO mark (hit_id, id, kind, symmetry_order) SELECT id, 'logo', 'point', 1 FROM hit`)
  insert(
    db,
    `INSERT INTO outline (hit_id, frame, x_px, y_px, radius_px)
     SELECT hit.id, from_frame + 12 * i, 400 + 12 * i, 200.5, 36.25 FROM hit, n`,
    3,
    {},
  )
  insert(
    db,
    `INSERT INTO sighting (hit_id, mark, frame, kind, x_px, y_px)
     SELECT hit.id, 'logo', from_frame + i, 'point', 410.25 + i, 190.5 FROM hit, n`,
    clicks,
    {},
  )
  insert(
    db,
    `INSERT INTO step (hit_id, number, edit, inverse, taken_at)
     SELECT hit.id, i + 1, $edit, $inverse, '2026-05-31T09:00:00.000Z' FROM hit, n`,
    clicks,
    {
      edit: JSON.stringify({
        kind: 'place-sighting',
        sighting: { kind: 'point', frame: 12, mark: 'logo', xPx: 410.25, yPx: 190.5 },
      }),
      inverse: JSON.stringify([{ kind: 'remove-sighting', frame: 12, mark: 'logo' }]),
    },
  )
  putReadings(db, clips * hitsEach)
  db.exec('COMMIT; ANALYZE')
  db.close()
}

/** Readings of the sample's own marks, each with another rate, one in seven flagged. */
function putReadings(db: Connection, hits: number): void {
  const marks = marksSchema.parse(JSON.parse(readFileSync(samplePath('clicks.json'), 'utf8')))
  const read = readMarks(marks)
  if (read.rpm === null || read.band === null) throw new Error('The sample has a reading.')
  const half = (read.band.highRpm - read.band.lowRpm) / 2
  const statement = db.prepare(
    `INSERT INTO reading (hit_id, reading, method_version, revision, digest, made_at, listed)
     VALUES ($id, $reading, '1', ${clicks}, $digest, '2026-05-31T09:00:00.000Z', $listed)`,
  )
  for (let i = 0; i < hits; i++) {
    const rpm = 900 + ((i * 7919) % 140_001) / 100
    const reading: Reading = {
      ...read,
      rpm,
      band: { lowRpm: rpm - half, highRpm: rpm + half, level: 0.95 },
      flag: i % 7 === 0 ? 'near-ceiling' : 'clear',
    }
    const { band, flag, counted } = reading
    statement.run({
      id: `h${i}`,
      reading: JSON.stringify(reading),
      digest: i.toString(16).padStart(64, '0'),
      listed: JSON.stringify({ rpm, band, flag, counted }),
    })
  }
}

const samplePath = (ending: string) => join(places.samples, `${sample}.${ending}`)

function linkClips(folder: string, count: number): string {
  const path = join(folder, 'clips')
  mkdirSync(path)
  for (let i = 0; i < count; i++)
    symlinkSync(samplePath('mp4'), join(path, `hit ${String(i).padStart(5, '0')}.mp4`))
  return path
}

const insert = (db: Connection, sql: string, count: number, values: object): unknown =>
  db
    .prepare(
      sql.replace(
        'SELECT',
        `WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < ${count - 1}) SELECT`,
      ),
    )
    .run(values)

const dayNumber = (n: number) => new Date(Date.UTC(2023, 0, 1 + 21 * n)).toISOString().slice(0, 10)
