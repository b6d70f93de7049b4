import { createHash } from 'node:crypto'
import { z } from 'zod'
import { senseSchema } from '../../core/contract/marks.ts'
import { type Asked, wordsOf } from '../service/read-once.ts'
import type { ReadClipOptions } from '../vision/read-clip.ts'

const positive = z.number().positive().optional()
const notNegative = z.number().min(0).optional()

/** What is asked of a clip on the queue, as it stands there. */
export const questionSchema = z.object({
  captureFps: z.number().positive().nullable(),
  captureRelativeUncertainty: notNegative,
  exposureSeconds: positive,
  readoutSeconds: notNegative,
  readoutUncertaintySeconds: notNegative,
  focalLengthPx: positive,
  ballDiameterMetres: positive,
  plausible: z.object({ maxRpm: positive, sense: senseSchema.optional() }),
  window: z.object({ fromFrame: z.int().min(0), toFrame: z.int().min(0) }).optional(),
}) satisfies z.ZodType<ReadClipOptions>
export type Question = z.infer<typeof questionSchema>

/**
 * What a session's clip is asked on a queue. Where nobody says how well its capture rate is known, the file's own
 * word goes along: the machine that reads has another one, the rate being said to it.
 */
export function questionOf({ clip, ...asked }: Asked): Question {
  const ofFile = clip.capture.fps === asked.captureFps ? clip.capture.relativeUncertainty : null
  return questionSchema.parse({
    ...asked,
    captureRelativeUncertainty: asked.captureRelativeUncertainty ?? ofFile ?? undefined,
  })
}

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
