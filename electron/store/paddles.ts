import { randomUUID } from 'node:crypto'
import type { Paddle, SetUp } from '../../core/contract/workspace.ts'
import type { PaddleWords } from '../../core/planning/paddle-words.ts'
import type { Database, SqlValues } from './database.ts'
import { found } from './missing.ts'
import { unlessTaken } from './taken.ts'
import type { Workspace } from './workspace.ts'

type PaddleRow = { id: string; name: string; notes: string }
type SetUpRow = PaddleRow & { paddle_id: string }

/** Paddles and the ways they were dressed. */
export function paddleStore(
  db: Database,
  stamp: () => string,
): Pick<Workspace, 'paddles' | 'createPaddle' | 'addSetUp'> {
  const paddles = (): Paddle[] => {
    const all = new Map(
      db
        .all<PaddleRow>('SELECT id, name, notes FROM paddle ORDER BY name')
        .map(({ id, name, notes }) => [id, { id, name, notes, setUps: [] as SetUp[] }]),
    )
    for (const row of db.all<SetUpRow>('SELECT * FROM set_up ORDER BY added_at, rowid'))
      all.get(row.paddle_id)?.setUps.push({ id: row.id, name: row.name, notes: row.notes })
    return [...all.values()]
  }
  const paddle = (id: string) =>
    found(
      paddles().find(one => one.id === id),
      'paddle',
      id,
    )
  const insertSetUp = (paddleId: string, { name, notes }: { name: string; notes: string }) =>
    db.run(
      `INSERT INTO set_up (id, paddle_id, name, notes, added_at) VALUES ($id, $paddleId, $name, $notes, $at)`,
      { id: randomUUID(), paddleId, name, notes, at: stamp() },
    )

  return {
    paddles,
    createPaddle: ({ name, notes }) => {
      const id = randomUUID()
      unlessTaken('paddle', name, () =>
        db.transaction(() => {
          db.run('INSERT INTO paddle (id, name, notes, added_at) VALUES ($id, $name, $notes, $at)', {
            id,
            name,
            notes,
            at: stamp(),
          })
          insertSetUp(id, { name: 'stock', notes: '' })
        }),
      )
      return paddle(id)
    },
    addSetUp: (paddleId, setUp) => {
      paddle(paddleId)
      unlessTaken('set-up', setUp.name, () => insertSetUp(paddleId, setUp))
      return paddle(paddleId)
    },
  }
}

/** The set-up of these names; a paddle or a set-up that is not there is made, in the caller's transaction. */
export function setUpNamed(db: Database, { paddle, setUp }: PaddleWords, at: string): string {
  const there = (sql: string, values: SqlValues) => db.get<{ id: string }>(sql, values)?.id
  const insertPaddle = (id: string) => {
    db.run(`INSERT INTO paddle (id, name, notes, added_at) VALUES ($id, $paddle, '', $at)`, {
      id,
      paddle,
      at,
    })
    insertSetUp(id, 'stock')
    return id
  }
  const insertSetUp = (paddleId: string, name: string) => {
    const id = randomUUID()
    db.run(
      `INSERT INTO set_up (id, paddle_id, name, notes, added_at) VALUES ($id, $paddleId, $name, '', $at)`,
      { id, paddleId, name, at },
    )
    return id
  }
  const paddleId =
    there('SELECT id FROM paddle WHERE name = $paddle', { paddle }) ?? insertPaddle(randomUUID())
  return (
    there('SELECT id FROM set_up WHERE paddle_id = $paddleId AND name = $setUp', { paddleId, setUp }) ??
    insertSetUp(paddleId, setUp)
  )
}
