/**
 * The table of paddles from the store, beside what the plain driver takes to hand over the same figures.
 * A workspace of its own is filled by plain SQL: the first table makes every figure, the later ones read
 * what was kept.
 *
 *   npx tsx tests/bench/paddle-table.ts [--paddles N] [--hits N] [--json]
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { allOf } from '../../core/ratings/rank-bands.ts'
import { rankBandsOf } from '../../core/ratings/standings.ts'
import { rankRandom } from '../../electron/service/rank-work.ts'
import { createRatings } from '../../electron/service/rating-table.ts'
import type { Reader } from '../../electron/service/reader.ts'
import { connect } from '../../electron/store/driver.ts'
import { openWorkspace } from '../../electron/store/open-workspace.ts'
import { chanceOf } from './simulate/random.ts'

const { values } = parseArgs({
  options: {
    paddles: { type: 'string', default: '10000' },
    hits: { type: 'string', default: '100' },
    json: { type: 'boolean', default: false },
  },
})
const [paddles, hits] = [Number(values.paddles), Number(values.hits)]
const chance = chanceOf(3)
const folder = mkdtempSync(join(tmpdir(), 'whorl-table-'))
const file = join(folder, 'workspace.sqlite')
const say = (line: string) => process.stdout.write(`${line}\n`)

/** Hits as they would lie there, their readings cut down to what a rating looks at. */
function fill(): void {
  openWorkspace(file, { now: () => new Date() }).close()
  const db = connect(file, false)
  db.exec('PRAGMA synchronous = OFF')
  db.exec('BEGIN')
  const run = (sql: string) => {
    const statement = db.prepare(sql)
    return (row: Record<string, string | number>) => statement.run(row)
  }
  const paddle = run("INSERT INTO paddle VALUES ($id, $name, '', '')")
  const setUp = run("INSERT INTO set_up VALUES ($id, $id, 'stock', '', '')")
  const hit = run(
    `INSERT INTO hit (id, clip_id, set_up_id, from_frame, to_frame, verdict, verdict_reason, notes, revision,
       steps_taken, added_at) VALUES ($id, 'clip', $setUp, 1, 12, 'accepted', '', '', 0, 0, '')`,
  )
  const reading = run(
    `INSERT INTO reading (hit_id, reading, method_version, revision, digest, made_at)
     VALUES ($id, $reading, '1', 0, '', '')`,
  )
  db.exec(`INSERT INTO session (id, day, place, camera_name, ball_name, ball_diameter_metres, hit_by, notes,
      added_at) VALUES ('session', '2026-05-31', '', 'camera', '', 0.074, '', '', '')`)
  db.exec(`INSERT INTO clip (id, session_id, name, path, added_at)
    VALUES ('clip', 'session', 'clip.mp4', '/clip.mp4', '')`)
  for (let p = 0; p < paddles; p++) {
    const id = `p${p}`
    paddle({ id, name: `Paddle ${p}` })
    setUp({ id })
    const rpm = 1900 + chance.normal(250)
    for (let h = 0; h < hits; h++) {
      hit({ id: `${id} ${h}`, setUp: id })
      reading({ id: `${id} ${h}`, reading: JSON.stringify(readingOf(rpm + chance.normal(40))) })
    }
  }
  db.exec('COMMIT')
  db.close()
}

const line = (source: string, u: number, sharedByHits: boolean) => ({
  source,
  standardUncertaintyRpm: u,
  kind: 'random',
  sharedByHits,
})
const readingOf = (rpm: number) => ({
  rpm,
  flag: 'clear',
  ceiling: { rpm: 7200, limit: 'sense' },
  effectiveDof: 20,
  reasons: [],
  budget: [line('marking scatter', 8, false), line('capture rate', 0.0005 * rpm, true)],
})

/** The best of some runs, ms. */
async function best(work: () => unknown, runs = 5): Promise<number> {
  let least = Number.POSITIVE_INFINITY
  for (let run = 0; run < runs; run++) {
    const from = performance.now()
    await work()
    least = Math.min(least, performance.now() - from)
  }
  return least
}

const figures: Record<string, number> = {}
const put = (name: string, value: number, words: string) => {
  figures[name] = Number(value.toFixed(2))
  say(`${words}: ${value.toFixed(1)}`)
}
try {
  fill()
  const workspace = openWorkspace(file, { now: () => new Date() })
  const reader = { readStale: () => {} } as unknown as Reader
  const table = () => createRatings({ workspace, reader })(() => {})
  put('firstTableMs', await best(table, 1), `${paddles} paddles of ${hits} hits, every figure made, ms`)
  const kept = await best(table)
  put('tableMs', kept, 'the table from the kept figures, ms')
  const again = createRatings({ workspace, reader })
  const { setUps } = await again(() => {})
  put('unchangedMs', await best(() => again(() => {})), 'the table when nothing changed, ms')
  const other = connect(file, false)
  const figureOf = other.prepare("SELECT figure FROM set_up_figure WHERE set_up_id = 'p7'")
  const change = other.prepare("UPDATE set_up_figure SET figure = $figure WHERE set_up_id = 'p7'")
  const { figure } = figureOf.get({}) as { figure: string }
  let turn = 0
  // Another window's change of one paddle's figure, as the table meets it.
  const changed = await best(() => {
    change.run({ figure: figure + ' '.repeat(++turn % 2) })
    return again(() => {})
  }, 8)
  other.close()
  put('changedMs', changed, 'the table after one paddle changed, ms')
  const plain = connect(file, true)
  const select = plain.prepare(
    `SELECT set_up.id, paddle.id AS paddleId, paddle.name, set_up.name AS setUp, figure FROM set_up_figure
     JOIN set_up ON set_up.id = set_up_id JOIN paddle ON paddle.id = paddle_id`,
  )
  const driver = await best(() => select.all({}).map(row => JSON.parse((row as { figure: string }).figure)))
  plain.close()
  put('driverMs', driver, 'the plain driver and JSON.parse, ms')
  put('tableOverDriver', kept / driver, 'ratio')
  put('changedOverDriver', changed / driver, 'ratio after one paddle changed')
  const some = setUps.slice(0, 1000)
  const bands = await best(() => allOf(rankBandsOf(some, rankRandom())), 1)
  put('rankBandsMs', bands, `rank bands of ${some.length} paddles, in slices, ms`)
  workspace.close()
} finally {
  rmSync(folder, { recursive: true, force: true })
}
if (values.json) say(JSON.stringify({ schema: 'whorl.bench/1', bench: 'paddle-table', figures }))
