import { z } from 'zod'
import { percentileDefinitionSchema } from './rating-rules.ts'
import { bandSchema, flagSchema } from './reading.ts'

const probability = z.number().min(0).max(1)

/** One paddle in one set-up among all. Without a rated hit it has a name and a flag, and no figure. */
export const standingSchema = z.object({
  paddle: z.string(),
  setUp: z.string(),
  meanRpm: z.number().nullable(),
  band: bandSchema.nullable(),
  hits: z.int().min(0),
  heldBack: z.int().min(0),
  betweenHitSdRpm: z.number().nullable(),
  percentile: z.number().min(0).max(100).nullable(),
  rank: z.int().positive().nullable(),
  rankBand: z.object({ low: z.int().positive(), high: z.int().positive() }).nullable(),
  tier: z.string().nullable(),
  flag: flagSchema,
})
export type Standing = z.infer<typeof standingSchema>

/** `whorl.paddles/1`: what `whorl paddles --json` prints; the highest mean first. */
export const paddlesDocumentSchema = z.object({
  schema: z.literal('whorl.paddles/1'),
  metric: z.literal('spin'),
  percentileDefinition: percentileDefinitionSchema,
  paddles: z.array(standingSchema),
})
export type PaddlesDocument = z.infer<typeof paddlesDocumentSchema>

/** `whorl.compare/1`: what `whorl compare A B --json` prints, one a pair. */
export const compareDocumentSchema = z.object({
  schema: z.literal('whorl.compare/1'),
  a: z.string(),
  b: z.string(),
  differenceRpm: z.number(),
  band: bandSchema.nullable(),
  probabilityAOverB: probability.nullable(),
  adjustedP: probability.nullable(),
})
export type CompareDocument = z.infer<typeof compareDocumentSchema>
