import pg from 'pg'
import { connectionSettings } from '../export/postgres-connection.ts'
import { placeOfString } from '../export/postgres-place.ts'
import { serverProblem } from '../export/postgres-trouble.ts'

/** What SQL is said to, in the form in which pg-boss takes a database. */
export type On = {
  executeSql<Row extends pg.QueryResultRow>(text: string, values?: unknown[]): Promise<{ rows: Row[] }>
}

/** A PostgreSQL server while it is spoken with. Problems are told by its place alone: the string may hold a password. */
export type Server = On & {
  place: string
  /** A connection outside of all others, with nothing said to it yet. The caller ends it. */
  connect(): Promise<pg.Client>
  /** Does the work as one transaction. */
  together<T>(work: (on: On) => Promise<T>): Promise<T>
  close(): Promise<void>
}

/** @throws `server-string`; everything else is told by the first question */
export function serverAt(connectionString: string): Server {
  const place = placeOfString(connectionString)
  const settings = connectionSettings(connectionString)
  const pool = new pg.Pool({ ...settings, max: 4 })
  // A connection lost between two questions is told by the next one.
  pool.on('error', () => {})
  const told = (thrown: unknown) => Promise.reject(serverProblem(place, thrown))
  return {
    place,
    connect: async () => {
      const client = new pg.Client(settings)
      client.on('error', () => {})
      await client.connect().catch(told)
      return client
    },
    executeSql: <Row extends pg.QueryResultRow>(text: string, values?: unknown[]) =>
      pool.query<Row>(text, values).catch(told),
    together: async work => {
      const client = await pool.connect().catch(told)
      try {
        await client.query('BEGIN')
        const result = await work({ executeSql: (text, values) => client.query(text, values) })
        await client.query('COMMIT')
        client.release()
        return result
      } catch (thrown) {
        // A connection that broke off in a transaction is not used again.
        client.release(true)
        return told(thrown)
      }
    },
    close: () => pool.end(),
  }
}
