import { z } from 'zod'

/** One clip on a queue of several machines. `said` is why it failed or last went back; empty otherwise. */
export const queuedClipSchema = z.object({
  path: z.string(),
  sha256: z.string(),
  state: z.enum(['waiting', 'reading', 'read', 'failed']),
  /** Who reads it or read it: the machine's name with the number of its process. */
  worker: z.string().nullable(),
  /** How often it was taken. */
  attempts: z.int().min(0),
  said: z.string(),
})
export type QueuedClip = z.infer<typeof queuedClipSchema>

/** `whorl.queue/1`: how far a queue on a PostgreSQL server is, its clips in the order they were put. */
export const sharedQueueSchema = z.object({
  schema: z.literal('whorl.queue/1'),
  /** The server's address and database, without user and password. */
  place: z.string(),
  waiting: z.int().min(0),
  reading: z.int().min(0),
  read: z.int().min(0),
  failed: z.int().min(0),
  clips: z.array(queuedClipSchema),
})
export type SharedQueue = z.infer<typeof sharedQueueSchema>
