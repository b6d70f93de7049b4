import { randomUUID } from 'node:crypto'
import type { Metric, MetricValue } from '../../core/contract/metrics.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Database, SqlValues } from './database.ts'
import { isTaken } from './driver.ts'
import type { Workspace } from './workspace.ts'

/** One row of a table of others: whose it is, and what it says. A paddle or set-up that is new is made. */
export type MetricRow = { paddle: string; setUp: string | null; values: readonly MetricValue[] }
/** What an import changed, enough to take it back. */
export type ImportWayBack = {
  paddles: string[]
  setUps: string[]
  changed: (Omit<Metric, 'unit' | 'value' | 'source' | 'importedAt'> & {
    before: Metric | null
    after: Metric
  })[]
}

type MetricCalls = 'metrics' | 'importMetrics' | 'undoImport'
type Place = Pick<Metric, 'paddleId' | 'setUpId' | 'name'>

const query = `SELECT paddle_id AS paddleId, set_up_id AS setUpId, name, unit, value, source,
  imported_at AS importedAt FROM metric`
const here = "paddle_id = $paddleId AND ifnull(set_up_id, '') = ifnull($setUpId, '') AND name = $name"

/** Values of paddles that were measured elsewhere. */
export function metricStore(db: Database, stamp: () => string): Pick<Workspace, MetricCalls> {
  const at = ({ paddleId, setUpId, name }: Place) => ({ paddleId, setUpId, name })
  const get = (place: Place) => db.get<Metric>(`${query} WHERE ${here}`, at(place)) ?? null
  const put = (metric: Metric) => {
    db.run(`DELETE FROM metric WHERE ${here}`, at(metric))
    db.run(
      `INSERT INTO metric (paddle_id, set_up_id, name, unit, value, source, imported_at)
       VALUES ($paddleId, $setUpId, $name, $unit, $value, $source, $importedAt)`,
      { ...metric },
    )
  }
  const insert = (what: 'paddle' | 'set-up', sql: string, values: SqlValues & { name: string }): string => {
    const id = randomUUID()
    try {
      db.run(sql, { id, at: stamp(), ...values })
      return id
    } catch (thrown) {
      throw isTaken(thrown)
        ? new WhorlError('name-taken', { what, name: values.name }, { cause: thrown })
        : thrown
    }
  }
  const newPaddle = (name: string) => {
    const paddleId = insert(
      'paddle',
      `INSERT INTO paddle (id, name, notes, added_at) VALUES ($id, $name, '', $at)`,
      { name },
    )
    newSetUp(paddleId, 'stock')
    return paddleId
  }
  const newSetUp = (paddleId: string, name: string) =>
    insert(
      'set-up',
      `INSERT INTO set_up (id, paddle_id, name, notes, added_at) VALUES ($id, $paddleId, $name, '', $at)`,
      { paddleId, name },
    )
  const idOf = (sql: string, values: SqlValues) => db.get<{ id: string }>(sql, values)?.id
  const paddleNamed = (name: string) =>
    idOf('SELECT id FROM paddle WHERE name = $name COLLATE BINARY', { name })
  const setUpNamed = (paddleId: string, name: string) =>
    idOf('SELECT id FROM set_up WHERE paddle_id = $paddleId AND name = $name COLLATE BINARY', {
      paddleId,
      name,
    })

  return {
    metrics: () => db.all<Metric>(`${query} ORDER BY name, paddle_id, set_up_id`),
    importMetrics: (rows, source) =>
      db.transaction(() => {
        const back: ImportWayBack = { paddles: [], setUps: [], changed: [] }
        const importedAt = stamp()
        for (const { paddle, setUp, values } of rows) {
          const paddleId = paddleNamed(paddle) ?? kept(back.paddles, newPaddle(paddle))
          const setUpId =
            setUp === null
              ? null
              : (setUpNamed(paddleId, setUp) ?? kept(back.setUps, newSetUp(paddleId, setUp)))
          for (const { name, unit, value } of values) {
            const before = get({ paddleId, setUpId, name })
            if (before?.value === value && before.unit === unit) continue
            const after = { paddleId, setUpId, name, unit, value, source, importedAt }
            put(after)
            back.changed.push({ paddleId, setUpId, name, before, after })
          }
        }
        return back
      }),
    undoImport: back =>
      db.transaction(() => {
        const moved = back.changed.find(one => {
          const now = get(one)
          return now?.importedAt !== one.after.importedAt || now.value !== one.after.value
        })
        if (moved)
          throw new WhorlError('undo-refused', {
            what: `${moved.name} of a paddle was changed or removed after the import`,
          })
        for (const { before, ...one } of back.changed.toReversed())
          if (before) put(before)
          else db.run(`DELETE FROM metric WHERE ${here}`, at(one))
        // What got a hit, a value or a turn of a test day meanwhile stays.
        for (const id of back.setUps)
          db.run(
            `DELETE FROM set_up WHERE id = $id AND id NOT IN (SELECT set_up_id FROM hit WHERE set_up_id IS NOT NULL)
               AND id NOT IN (SELECT set_up_id FROM turn)
               AND NOT EXISTS (SELECT 1 FROM metric WHERE set_up_id = $id)`,
            { id },
          )
        for (const id of back.paddles)
          db.run(
            `DELETE FROM paddle WHERE id = $id AND NOT EXISTS (SELECT 1 FROM metric WHERE paddle_id = $id)
               AND NOT EXISTS (SELECT 1 FROM set_up JOIN hit ON hit.set_up_id = set_up.id WHERE paddle_id = $id)
               AND NOT EXISTS (SELECT 1 FROM set_up JOIN turn ON turn.set_up_id = set_up.id WHERE paddle_id = $id)`,
            { id },
          )
      }),
  }
}

function kept(list: string[], id: string): string {
  list.push(id)
  return id
}
