import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Edit } from '../../../core/contract/bench.ts'
import { connect } from '../../../electron/store/driver.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { fillWorkspace } from '../load-fill.ts'
import { type Line, sideBySide } from './side-by-side.ts'

const clicksAtOnce = 100

async function inFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'whorl-bench-'))
  try {
    return await work(folder)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

const click = (number: number): Edit => ({
  kind: 'place-sighting',
  sighting: { kind: 'point', frame: number % 20, mark: 'logo', xPx: 400 + (number % 97) / 7, yPx: 200 },
})

/** The plain driver writes the same two rows and the hit's own, each click synced as the workspace does it. */
const clicks: Line = {
  name: 'clicks',
  what: `${clicksAtOnce} clicks kept, each on disk with its way back`,
  beside: 'the driver, the same rows and syncs',
  measure: () =>
    inFolder(async folder => {
      const file = join(folder, 'workspace.sqlite')
      fillWorkspace(file, folder, { sessions: 1, clipsEach: 1, hitsEach: 2, paddles: 1 })
      const workspace = openWorkspace(file, { now: () => new Date() })
      const plain = connect(join(folder, 'plain.sqlite'), false)
      plain.exec(`PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
        CREATE TABLE hit (id TEXT PRIMARY KEY, taken INTEGER);
        CREATE TABLE sighting (hit, mark, frame, kind, x, y, PRIMARY KEY (hit, mark, frame)) WITHOUT ROWID;
        CREATE TABLE step (hit, number, edit, inverse, at, PRIMARY KEY (hit, number)) WITHOUT ROWID;
        INSERT INTO hit VALUES ('h1', 0)`)
      const sighting = plain.prepare(
        `INSERT OR REPLACE INTO sighting VALUES ('h1', 'logo', $frame, 'point', $x, 200)`,
      )
      const step = plain.prepare(`INSERT INTO step VALUES ('h1', $number, $edit, $edit, $at)`)
      const hit = plain.prepare(`UPDATE hit SET taken = $number WHERE id = 'h1'`)
      let [ours, theirs] = [0, 0]
      const answer = await sideBySide(
        () => {
          for (let n = 0; n < clicksAtOnce; n++) workspace.saveEdit('h1', click(ours++))
        },
        () => {
          for (let n = 0; n < clicksAtOnce; n++) {
            const number = theirs++
            const { frame, xPx } = (click(number) as { sighting: { frame: number; xPx: number } }).sighting
            plain.exec('BEGIN IMMEDIATE')
            sighting.run({ frame, x: xPx })
            step.run({ number, edit: JSON.stringify(click(number)), at: new Date().toISOString() })
            hit.run({ number })
            plain.exec('COMMIT')
          }
        },
        { clock: 'wall', repeats: 9 },
      )
      plain.close()
      workspace.close()
      return answer
    }),
}

const listed = 5000

/** The plain driver hands over the same rows, and JSON.parse their readings. */
const list: Line = {
  name: 'list',
  what: `${listed} hits of a session listed`,
  beside: 'the driver’s rows and JSON.parse',
  isQuick: true,
  measure: () =>
    inFolder(async folder => {
      const file = join(folder, 'workspace.sqlite')
      fillWorkspace(file, folder, { sessions: 1, clipsEach: 500, hitsEach: listed / 500, paddles: 20 })
      const workspace = openWorkspace(file, { now: () => new Date() })
      const sessionId = workspace.sessions()[0]!.id
      const plain = connect(file, true)
      const rows = plain.prepare(
        `SELECT hit.*, clip.name, set_up.name AS set_up, paddle.name AS paddle, listed FROM clip
         JOIN hit ON hit.clip_id = clip.id JOIN set_up ON set_up.id = set_up_id
         JOIN paddle ON paddle.id = paddle_id JOIN reading ON reading.hit_id = hit.id
         WHERE session_id = $sessionId ORDER BY clip.name, from_frame`,
      )
      const answer = await sideBySide(
        () => workspace.hits({ sessionId }),
        () => rows.all({ sessionId }).map(row => JSON.parse((row as { listed: string }).listed)),
        { clock: 'processor', repeats: 24 },
      )
      plain.close()
      workspace.close()
      return answer
    }),
}

export const store: Line[] = [clicks, list]
