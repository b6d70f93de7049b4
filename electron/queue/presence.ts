import type pg from 'pg'
import type { On, Server } from './server.ts'
import { lockClass, schema } from './tables.ts'

/**
 * A worker's sign of life: a lock that its own connection holds. The server lets go of it the moment the process
 * ends, however it ends, and about a minute after its machine was cut off.
 */
export type Presence = {
  /** The worker's number; another one after its connection was lost. */
  number(): Promise<number>
  close(): Promise<void>
}

/** Seconds of silence, between questions, and questions unanswered until a machine counts as cut off. */
const keepAlive =
  'SET tcp_keepalives_idle = 30; SET tcp_keepalives_interval = 10; SET tcp_keepalives_count = 3'

export function createPresence(server: Server, name: string): Presence {
  let held: Promise<{ client: pg.Client; number: number }> | null = null

  async function enter() {
    const client = await server.connect()
    client.once('end', () => {
      held = null
    })
    await client.query(keepAlive)
    const { rows } = await client.query<{ number: number }>(
      `INSERT INTO ${schema}.whorl_worker (name) VALUES ($1) RETURNING number`,
      [name],
    )
    const { number } = rows[0]!
    await client.query('SELECT pg_advisory_lock($1, $2)', [lockClass, number])
    return { client, number }
  }
  return {
    async number() {
      held ??= enter()
      const mine = held
      return (
        await mine.catch(thrown => {
          held = null
          throw thrown
        })
      ).number
    },
    async close() {
      const now = await held?.catch(() => null)
      await now?.client.end()
    },
  }
}

/** Takes clips out of the hands of workers that are gone, and says whose they were. */
export async function takeFromTheGone(on: On): Promise<{ id: string; name: string }[]> {
  const { rows } = await on.executeSql<{ id: string; name: string }>(
    `UPDATE ${schema}.whorl_clip c SET worker = NULL FROM ${schema}.whorl_worker w
     WHERE c.worker = w.number AND NOT EXISTS (
       SELECT 1 FROM pg_catalog.pg_locks l JOIN pg_catalog.pg_database d ON d.oid = l.database
       WHERE l.locktype = 'advisory' AND l.granted AND d.datname = current_database()
         AND l.classid::bigint = $1 AND l.objid::bigint = w.number AND l.objsubid = 2)
     RETURNING c.id, w.name`,
    [lockClass],
  )
  return rows
}
