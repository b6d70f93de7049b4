import type { Media } from '../media/media.ts'
import { createLanes } from '../service/lanes.ts'
import { Pool, type PoolOptions } from './pool.ts'
import { type Job, type ReadClip, type ReadClipOptions, readClip } from './read-clip.ts'

/**
 * The program's eyes: finds flights in clips and reads them, in workers on all cores. One for the whole host;
 * clips may be asked for at the same time. Rejects with a WhorlError, `cancelled` among them.
 */
export type Vision = {
  readClip(path: string, options: ReadClipOptions, job?: Job): Promise<ReadClip>
  close(): Promise<void>
}

export function createVision(media: Media, options: PoolOptions = {}): Vision {
  const pool = new Pool(options)
  const eyes = { media, pool, inLane: createLanes(pool.size) }
  return {
    readClip: (path, asked, job) => readClip(eyes, path, asked, job),
    close: () => pool.close(),
  }
}
