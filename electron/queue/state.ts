import type { QueuedClip, SharedQueue } from '../../core/contract/shared-queue.ts'
import type { Answer } from './answer.ts'
import { type Server, serverAt } from './server.ts'
import { areTablesThere, queueName, schema } from './tables.ts'

type Row = {
  id: string
  path: string
  sha256: string
  answered: boolean
  worker: string | null
  state: string | null
  attempts: number
  said: string | null
}

/** pg-boss leaves a job that timed out with its reason one level deeper. */
const look = `
  SELECT c.id, c.path, c.sha256, c.answer IS NOT NULL AS answered, coalesce(c.read_by, w.name) AS worker, j.state::text AS state,
    CASE WHEN j.started_on IS NULL THEN 0 ELSE j.retry_count + 1 END AS attempts,
    coalesce(j.output->>'message', j.output->'value'->>'message') AS said
  FROM ${schema}.whorl_clip c LEFT JOIN ${schema}.whorl_worker w ON w.number = c.worker
    LEFT JOIN ${schema}.job j ON j.name = $1 AND j.id = c.id`

/** How far the queue on a server is. Looking makes no tables: a server without them has an empty queue. */
export async function queueState(connectionString: string): Promise<SharedQueue> {
  const server = serverAt(connectionString)
  try {
    const rows = (await areTablesThere(server))
      ? (await server.executeSql<Row>(`${look} ORDER BY c.place`, [queueName])).rows
      : []
    const clips = rows.map(clipOf)
    const count = (state: QueuedClip['state']) => clips.filter(clip => clip.state === state).length
    return {
      schema: 'whorl.queue/1',
      place: server.place,
      waiting: count('waiting'),
      reading: count('reading'),
      read: count('read'),
      failed: count('failed'),
      clips,
    }
  } finally {
    await server.close()
  }
}

function clipOf({ id: _, answered, state, said, ...row }: Row): QueuedClip {
  if (answered) return { ...row, state: 'read', said: '' }
  if (state === 'active') return { ...row, state: 'reading', said: said ?? '' }
  if (state === 'created' || state === 'retry') return { ...row, state: 'waiting', said: said ?? '' }
  return { ...row, state: 'failed', said: said ?? 'Nobody took it within a year.' }
}

/** Answers that are asked for at a time: a document has tens of kilobytes. */
const page = 100

/** A clip of the queue with what was stored of it, as it came from the server. */
export type Looked = QueuedClip & { answer: unknown; flights: unknown }

/** How far some clips are, by the names of their questions. One that is not on the queue is not among them. */
export async function queuedOf(
  connectionString: string,
  ids: readonly string[],
): Promise<Map<string, Looked>> {
  const server = serverAt(connectionString)
  const found = new Map<string, Looked>()
  try {
    if (!(await areTablesThere(server))) return found
    for (let from = 0; from < ids.length; from += page) {
      const { rows } = await server.executeSql<Row & { answer: unknown; flights: unknown }>(
        `SELECT looked.*, own.answer, own.flights FROM (${look} WHERE c.id = ANY($2::uuid[])) looked
           JOIN ${schema}.whorl_clip own ON own.id = looked.id`,
        [queueName, ids.slice(from, from + page)],
      )
      for (const { answer, flights, ...row } of rows) found.set(row.id, { ...clipOf(row), answer, flights })
    }
    return found
  } finally {
    await server.close()
  }
}

/** What is stored, in the order the clips were put. */
export async function* queueAnswers(connectionString: string): AsyncGenerator<Answer> {
  const server = serverAt(connectionString)
  try {
    if (await areTablesThere(server)) yield* answersOf(server)
  } finally {
    await server.close()
  }
}

async function* answersOf(server: Server): AsyncGenerator<Answer> {
  for (let after = 0; ; ) {
    const { rows } = await server.executeSql<{ place: number; answer: Answer }>(
      `SELECT place, answer FROM ${schema}.whorl_clip WHERE answer IS NOT NULL AND place > $1 ORDER BY place LIMIT ${page}`,
      [after],
    )
    yield* rows.map(({ answer }) => answer)
    if (rows.length < page) return
    after = rows.at(-1)!.place
  }
}
