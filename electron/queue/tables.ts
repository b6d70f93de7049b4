import PgBoss from 'pg-boss'
import type { Server } from './server.ts'

/** Everything of the queue lies in this schema: the tables of pg-boss and two of ours. */
export const schema = 'whorl_queue'
export const queueName = 'clips'

/**
 * A clip with a question, its answer once there is one with its flights beside it (which the first tables had no
 * place for), and who reads it; the job in pg-boss has the same id.
 */
const ours = `
  CREATE TABLE IF NOT EXISTS ${schema}.whorl_worker (
    number int GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    name text NOT NULL);
  CREATE TABLE IF NOT EXISTS ${schema}.whorl_clip (
    id uuid PRIMARY KEY,
    place int GENERATED ALWAYS AS IDENTITY UNIQUE,
    path text NOT NULL,
    sha256 text NOT NULL,
    bytes bigint NOT NULL,
    question json NOT NULL,
    worker int REFERENCES ${schema}.whorl_worker,
    answer json,
    read_by text,
    flights json);
  DO $$ BEGIN
    IF NOT EXISTS (
      SELECT 1 FROM pg_catalog.pg_attribute
      WHERE attrelid = '${schema}.whorl_clip'::regclass AND attname = 'flights')
    THEN ALTER TABLE ${schema}.whorl_clip ADD COLUMN flights json;
    END IF;
  END $$`

/** The first half of the advisory locks that are ours; the second is 0 while tables are made, else a worker's number. */
export const lockClass = 0x77686f72

/** Retries come after about 1, 2, 4, 8 and 16 s: another machine may have what this one lacks. */
const retry = { retryLimit: 5, retryDelay: 1, retryBackoff: true }
/** A clip that nobody takes, and why one failed, is not forgotten for a year. */
const retentionMinutes = 365 * 24 * 60

/** How long one clip may be read before another machine tries, unless said. */
export const usualTimeLimitSeconds = 900

/** pg-boss on the server, its tables and ours made where they are missing. */
export async function startBoss(server: Server, { supervise }: { supervise: boolean }): Promise<PgBoss> {
  const boss = new PgBoss({
    db: server,
    schema,
    schedule: false,
    supervise,
    maintenanceIntervalSeconds: 30,
    archiveFailedAfterSeconds: 60 * retentionMinutes,
  })
  // What it does in the background and cannot do now it does the next time.
  boss.on('error', () => {})
  await server.together(async on => {
    await on.executeSql('SELECT pg_advisory_xact_lock($1, 0)', [lockClass])
    await boss.start()
    await boss.createQueue(queueName, { name: queueName, ...retry, retentionMinutes })
    await on.executeSql(ours)
  })
  return boss
}

export const areTablesThere = async (server: Server): Promise<boolean> => {
  const { rows } = await server.executeSql<{ there: boolean }>(
    `SELECT to_regclass('${schema}.whorl_clip') IS NOT NULL AS there`,
  )
  return rows[0]!.there
}
