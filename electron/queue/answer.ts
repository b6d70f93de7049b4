import { z } from 'zod'
import type { Clip } from '../../core/contract/clip.ts'
import { outlineSchema } from '../../core/contract/marks.ts'
import { type Problem, problemSchema } from '../../core/contract/problem.ts'
import { type ReadingDocument, readingDocumentSchema } from '../../core/contract/reading.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import type { ReadClip } from '../vision/read-clip.ts'

/** What is stored of a clip: what `whorl read --json` prints. */
export type Answer = ReadingDocument | Problem

const frame = z.int().min(0)
const flightsSchema = z.object({
  outlines: z.array(
    z.array(
      z.object({
        frame,
        outline: outlineSchema,
        centreUncertaintyPx: z.number(),
        radiusUncertaintyPx: z.number(),
      }),
    ),
  ),
  contacts: z.array(z.object({ lastFrameBefore: frame, firstFrameAfter: frame, atFrame: z.number() })),
  features: z.array(
    z.object({
      focalLengthPx: z.number().nullable(),
      feature: z.object({ frame, xPx: z.number(), yPx: z.number() }).nullable(),
    }),
  ),
})
/** What stands beside an answer, so that the hits of a workspace can be made of it: where the ball was. */
export type Flights = Omit<ReadClip, 'clip' | 'readings'>
export const noFlights: Flights = { outlines: [], contacts: [], features: [] }

/**
 * An answer as it came from a server, where anybody may have written: the clip as it was read, the problem with it,
 * or null for what is neither by the form of an answer nor about this clip.
 */
export function answerOf(clip: Clip, answer: unknown, flights: unknown): ReadClip | Problem | null {
  const problem = problemSchema.safeParse(answer).data
  if (problem) return problem
  const document = readingDocumentSchema.safeParse(answer).data
  const seen = flightsSchema.safeParse(flights).data
  if (!document || !seen) return null
  const { outlines, features } = seen
  const { readings, software } = document
  const isAboutIt = document.clip?.sha256 === clip.sha256 && software.methodVersion === methodVersion
  const isOneEach = outlines.length === 0 || outlines.length === readings.length
  const isInside = outlines.flat().every(({ frame }) => frame < clip.frames)
  return isAboutIt && isOneEach && isInside && features.length === outlines.length
    ? { clip, readings, ...seen }
    : null
}
