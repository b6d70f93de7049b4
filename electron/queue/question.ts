import { createHash } from 'node:crypto'
import { z } from 'zod'
import { senseSchema } from '../../core/contract/marks.ts'
import { wordsOf } from '../service/read-once.ts'
import type { ReadClipOptions } from '../vision/read-clip.ts'

const positive = z.number().positive().optional()

/** What is asked of a clip on the queue, as it stands there. */
export const questionSchema = z.object({
  captureFps: z.number().positive().nullable(),
  exposureSeconds: positive,
  readoutSeconds: positive,
  focalLengthPx: positive,
  ballDiameterMetres: positive,
  plausible: z.object({ maxRpm: positive, sense: senseSchema.optional() }),
  window: z.object({ fromFrame: z.int().min(0), toFrame: z.int().min(0) }).optional(),
}) satisfies z.ZodType<ReadClipOptions>
export type Question = z.infer<typeof questionSchema>

/**
 * The name of a clip with a question, the same wherever it is made: by the clip's contents, by what is asked
 * and by the method that answers.
 */
export function questionId(sha256: string, question: Question): string {
  const digest = createHash('sha256').update(`${sha256}\n${wordsOf({ ...question, clip: null })}`)
  // A UUID of version 8, whose bits are its maker's own but for version and variant (RFC 9562, 5.8).
  const [, a, b, c, d, e] = /^(.{8})(.{4}).(.{3}).(.{3})(.{12})/.exec(digest.digest('hex'))!
  return `${a}-${b}-8${c}-8${d}-${e}`
}
