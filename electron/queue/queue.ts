import { hostname } from 'node:os'
import { type Answer, type Flights, noFlights } from './answer.ts'
import { createPresence, takeFromTheGone } from './presence.ts'
import { type Question, questionId, questionSchema } from './question.ts'
import { serverAt } from './server.ts'
import { queueName, schema, startBoss } from './tables.ts'

/** A clip as it is put: `path` is where this machine has it, the hash is what it is known by. */
export type Put = {
  path: string
  sha256: string
  bytes: number
  question: Question
  timeLimitSeconds: number
}
/** A clip in a worker's hand. */
export type Taken = Put & { id: string }
export type ClipQueue = {
  place: string
  /**
   * Puts a clip on the queue. One that waits or was read with the same question stays as it is; a failed one is
   * begun anew, and so is one whose answer has no flights beside it.
   */
  put(clip: Put): Promise<void>
  /** The next clip that waits, or null. */
  take(): Promise<Taken | null>
  /** Stores the answer, if there is none yet, and ends the job: both or neither. */
  answer(clip: Taken, answer: Answer, flights?: Flights): Promise<void>
  /** Lets another try, later; after the last attempt the clip is failed for this reason. */
  giveBack(clip: Taken, reason: string): Promise<void>
  /** Lets others have what workers held that are gone. */
  giveBackOfTheGone(): Promise<void>
  /** True when no clip waits and none is being read. */
  isEmpty(): Promise<boolean>
  close(): Promise<void>
}

type Row = { path: string; sha256: string; bytes: string; question: unknown; answered: boolean }

/**
 * The queue of clips on a PostgreSQL server. Jobs, retries and time-outs are those of pg-boss; a clip has the same
 * id there and here. `supervise`: this process also sees to time-outs, for all.
 */
export async function openQueue(
  connectionString: string,
  { supervise }: { supervise: boolean },
): Promise<ClipQueue> {
  const server = serverAt(connectionString)
  const boss = await startBoss(server, { supervise }).catch(async thrown => {
    await server.close()
    throw thrown
  })
  const presence = createPresence(server, `${hostname()} (${process.pid})`)

  async function take(): Promise<Taken | null> {
    const number = await presence.number()
    const { job, row } = await server.together(async on => {
      const [job] = await boss.fetch(queueName, { db: on })
      if (!job) return { job: null, row: null }
      const { rows } = await on.executeSql<Row>(
        `UPDATE ${schema}.whorl_clip SET worker = CASE WHEN answer IS NULL THEN $2::int END WHERE id = $1
         RETURNING path, sha256, bytes, question, answer IS NOT NULL AS answered`,
        [job.id, number],
      )
      const row = rows[0]
      if (row && !row.answered) return { job, row }
      // Its reader was given up too early and has answered since.
      await boss.complete(queueName, job.id, {}, { db: on })
      return { job, row: null }
    })
    if (!job) return null
    if (!row) return take()
    const question = questionSchema.parse(row.question)
    const timeLimitSeconds = Number(job.expireInSeconds)
    return { ...row, id: job.id, bytes: Number(row.bytes), question, timeLimitSeconds }
  }

  return {
    place: server.place,
    take,
    put: ({ path, sha256, bytes, question, timeLimitSeconds }) =>
      server.together(async on => {
        const id = questionId(sha256, question)
        const { rows } = await on.executeSql<{ answered: boolean }>(
          `INSERT INTO ${schema}.whorl_clip AS c (id, path, sha256, bytes, question) VALUES ($1, $2, $3, $4, $5)
           ON CONFLICT (id) DO UPDATE SET path = excluded.path,
             answer = CASE WHEN c.flights IS NOT NULL THEN c.answer END
           RETURNING answer IS NOT NULL AS answered`,
          [id, path, sha256, bytes, JSON.stringify(question)],
        )
        if (rows[0]!.answered) return
        const job = await boss.getJobById(queueName, id, { db: on, includeArchive: false })
        if (job?.state === 'failed' || job?.state === 'completed')
          await boss.deleteJob(queueName, id, { db: on })
        await boss.send(queueName, {}, { id, db: on, expireInSeconds: timeLimitSeconds })
      }),
    answer: ({ id }, answer, flights = noFlights) =>
      server.together(async on => {
        await on.executeSql(
          `UPDATE ${schema}.whorl_clip SET answer = $2, flights = $3, read_by = $4, worker = NULL
           WHERE id = $1 AND answer IS NULL`,
          [id, JSON.stringify(answer), JSON.stringify(flights), `${hostname()} (${process.pid})`],
        )
        await boss.complete(queueName, id, {}, { db: on })
      }),
    async giveBack({ id }, message) {
      const number = await presence.number()
      await server.together(async on => {
        const { rows } = await on.executeSql(
          `UPDATE ${schema}.whorl_clip SET worker = NULL WHERE id = $1 AND worker = $2 RETURNING id`,
          [id, number],
        )
        if (rows.length > 0) await boss.fail(queueName, id, { message }, { db: on })
      })
    },
    giveBackOfTheGone: () =>
      server.together(async on => {
        for (const { id, name } of await takeFromTheGone(on))
          await boss.fail(
            queueName,
            id,
            { message: `The worker on ${name} ended while it read.` },
            { db: on },
          )
      }),
    async isEmpty() {
      return (await boss.getQueueSize(queueName, { before: 'completed' })) === 0
    },
    async close() {
      await presence.close()
      await boss.stop({ graceful: false, close: false })
      await server.close()
    },
  }
}
