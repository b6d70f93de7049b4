import type { Progress } from './calls.ts'

/**
 * How far a clip of a session's queue is. `said` tells what came out of it, or what went wrong; of a clip that other
 * machines read (`elsewhere`), the server whose queue it is on.
 */
export type QueueEntry = {
  clipId: string
  state: 'waiting' | 'reading' | 'elsewhere' | 'done' | 'failed'
  said: string
  progress: Progress | null
}
/** The clips of a session that are read one after the other, in their order. */
export type QueueState = { entries: QueueEntry[] }

/** A folder whose new clips come into a session and are read. */
export type WatchState = {
  folder: string | null
  /** Why the folder cannot be looked into now. */
  problem: string | null
  /** Names of files that are still being copied, or do not open yet. */
  waiting: string[]
  /** Clips that came in since the program was started, the last one last. */
  arrived: string[]
}
