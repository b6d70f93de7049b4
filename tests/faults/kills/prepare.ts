import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { places } from '../../../electron/service/places.ts'
import { connect } from '../../../electron/store/driver.ts'
import { migrations } from '../../../electron/store/migrations.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { clip, session } from '../../core/marking/sample-records.ts'
import { sampleReading } from '../../electron/store/sample-reading.ts'
import { dayOfRound, markedFrames } from './work.ts'

const now = () => new Date(Date.UTC(2026, 4, 31))
const found = (path: string, sha256: string) => ({
  path,
  probe: { ...clip, path, sha256 },
  problem: null,
  timestampsSeconds: Array.from({ length: clip.frames }, (_, frame) => frame / 240),
})

/** A workspace with one hit, ready to be clicked on. */
export function readyToMark(folder: string): string {
  const file = join(folder, 'marking.sqlite')
  const workspace = openWorkspace(file, { now })
  const sessionId = workspace.createSession(session).id
  const clipId = workspace.addClip(sessionId, found('/clips/drive 01.mp4', 'a'.repeat(64))).id
  workspace.createHit(clipId, { fromFrame: 0, toFrame: markedFrames - 1 })
  workspace.close()
  return file
}

export const writtenPaddles = 100

/** A workspace with a rated hit for each of many paddles, in a folder of its own where the targets will lie. */
export function readyToExport(folder: string): string {
  const workspace = openWorkspace(join(folder, 'workspace.sqlite'), { now })
  const sessionId = workspace.createSession({ ...session, day: dayOfRound(0) }).id
  const clipId = workspace.addClip(sessionId, found('/clips/drive 02.mp4', 'b'.repeat(64))).id
  for (let paddle = 0; paddle < writtenPaddles; paddle++) {
    const setUp = workspace.createPaddle({ name: nameOf(paddle), notes: '' }).setUps[0]!
    const { hitId } = workspace.createHit(clipId, { fromFrame: 0, toFrame: 20 }).row
    workspace.assignHit(hitId, setUp.id)
    workspace.saveReading(hitId, sampleReading({ rpm: 2000 + paddle }), '1')
    workspace.saveEdit(hitId, { kind: 'decide', verdict: { state: 'accepted', reason: '' } })
  }
  workspace.close()
  return folder
}

/** Names far apart: a target asks about those that are almost the same. */
const nameOf = (paddle: number): string =>
  Array.from({ length: 8 }, (_, i) => String.fromCharCode(97 + ((paddle * (2 * i + 7) + 5 * i) % 26))).join(
    '',
  ) + paddle

export const readClips = 6

/** A workspace whose session has clips to be read, in a folder of its own with the clips. */
export function readyToRead(folder: string): string {
  mkdirSync(folder)
  const file = join(folder, 'reading.sqlite')
  const workspace = openWorkspace(file, { now })
  const sessionId = workspace.createSession(session).id
  const bytes = readFileSync(join(places.samples, 'fast-240-a.mp4'))
  for (let n = 0; n < readClips; n++) {
    const path = join(folder, `drive ${n}.mp4`)
    // A free box behind the pictures (ISO 14496-12, 8.1.2): the same clip, other contents.
    writeFileSync(path, Buffer.concat([bytes, Buffer.from([0, 0, 0, 9]), Buffer.from('free'), Buffer.of(n)]))
    workspace.addClip(sessionId, { path, probe: null, problem: null, timestampsSeconds: [] })
  }
  workspace.close()
  return file
}

export const oldHits = 400

/** A workspace of the first form there was, with work in it. */
export function ofTheFirstForm(file: string): void {
  const db = connect(file, false)
  const reading = JSON.stringify(sampleReading())
  db.exec(`BEGIN; ${migrations[0]!}
    INSERT INTO session VALUES ('s', '2026-05-31', 'Bench 2', 'Kestrel', 240, 5e-5, 0.0005, NULL, NULL, NULL,
      'Outdoor', 0.074, 'Launcher', 5000, NULL, '', '2026-05-31T09:00:00Z');
    INSERT INTO clip VALUES ('c', 's', 'a.mp4', '/a.mp4', NULL, NULL, NULL, x'', 120, '2026-05-31T09:00:00Z');
    INSERT INTO paddle VALUES ('p', 'Heron 14', '', '2026-05-31T09:00:00Z');
    INSERT INTO set_up VALUES ('u', 'p', 'stock', '', '2026-05-31T09:00:00Z');`)
  for (let hit = 0; hit < oldHits; hit++)
    db.exec(`INSERT INTO hit VALUES ('h${hit}', 'c', 'u', 0, 11, NULL, NULL, 'accepted', '', '', 1, 1,
        '2026-05-31T09:00:00Z');
      INSERT INTO mark VALUES ('h${hit}', 'logo', 'point', 1);
      INSERT INTO sighting VALUES ('h${hit}', 'logo', 3, 'point', 101, 52, NULL);
      INSERT INTO step VALUES ('h${hit}', 1, '{}', '[]', '2026-05-31T09:00:00Z');
      INSERT INTO reading VALUES ('h${hit}', '${reading}', '1', 1, 'd', '2026-05-31T09:00:00Z');`)
  db.exec('PRAGMA user_version = 1; COMMIT')
  db.close()
}
