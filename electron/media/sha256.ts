import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { WhorlError } from '../../core/contract/problem.ts'
import { type GuardedFile, whyUnreadable } from './guard.ts'
import type { JobOptions } from './media.ts'
import { throttled } from './throttled.ts'

/** The file's SHA-256 in hexadecimal, read piece by piece. */
export async function sha256Of(file: GuardedFile, { signal, progress }: JobOptions = {}): Promise<string> {
  const what = 'Reading the file'
  const report = throttled(progress)
  const hash = createHash('sha256')
  let done = 0
  try {
    for await (const piece of createReadStream(file.path, { highWaterMark: 1 << 20, signal })) {
      hash.update(piece)
      done += piece.length
      report({ what, done, total: file.bytes })
    }
  } catch (error) {
    throw signal?.aborted ? new WhorlError('cancelled', { what }) : whyUnreadable(file.path, error)
  }
  return hash.digest('hex')
}
