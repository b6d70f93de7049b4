import pg from 'pg'
import { placeOfString } from './postgres-place.ts'
import { isConflict, isDropped, serverProblem } from './postgres-trouble.ts'

/** How every connection is made: as the string says, TLS included. */
export const connectionSettings = (connectionString: string) => ({
  connectionString,
  connectionTimeoutMillis: 15_000,
  keepAlive: true,
  application_name: 'whorl',
})

/**
 * Numbers that JavaScript holds exactly come as numbers, everything else as the text that PostgreSQL would
 * take back.
 */
async function connectPostgres(connectionString: string): Promise<pg.Client> {
  const client = new pg.Client({
    ...connectionSettings(connectionString),
    types: { getTypeParser: type => parsers.get(type) ?? String },
  })
  // A connection lost between two questions is told by the next one.
  client.on('error', () => {})
  await client.connect()
  return client
}

/** int2, int4, float4, float8 (pg_type.dat). */
const parsers = new Map<number, (text: string) => number>([
  [21, Number],
  [23, Number],
  [700, text => Math.fround(Number(text))],
  [701, Number],
])

const begin = {
  read: 'BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY',
  write: 'BEGIN ISOLATION LEVEL SERIALIZABLE',
}
const conflictsMost = 12

/**
 * Does the work as one transaction on a connection of its own. Done anew when another writer came first,
 * and once more after a dropped connection.
 *
 * @throws `server-away`, `server-login`, `server-tls`, `target-…`
 */
export async function inTransaction<T>(
  connectionString: string,
  how: 'read' | 'write',
  work: (client: pg.Client) => Promise<T>,
): Promise<T> {
  const place = placeOfString(connectionString)
  let dropped = 0
  for (let conflicts = 0; ; ) {
    try {
      return await once(connectionString, how, work)
    } catch (thrown) {
      if (isDropped(thrown) && dropped++ === 0) await pause(500)
      else if (isConflict(thrown) && conflicts++ < conflictsMost) await pause(Math.random() * 100 * conflicts)
      else throw serverProblem(place, thrown)
    }
  }
}

const pause = (milliseconds: number) => new Promise(resolve => setTimeout(resolve, milliseconds))

async function once<T>(
  connectionString: string,
  how: 'read' | 'write',
  work: (client: pg.Client) => Promise<T>,
): Promise<T> {
  const client = await connectPostgres(connectionString)
  try {
    await client.query(begin[how])
    await client.query("SET LOCAL lock_timeout = '5s'")
    const result = await work(client)
    await client.query('COMMIT')
    return result
  } catch (thrown) {
    await client.query('ROLLBACK').catch(() => {})
    throw thrown
  } finally {
    await client.end().catch(() => {})
  }
}
