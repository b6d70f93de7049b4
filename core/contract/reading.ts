import { z } from 'zod'
import { clipSchema, warningSchema } from './clip.ts'
import { senseSchema } from './marks.ts'

/** An interval that holds the true value with probability `level`. */
export const bandSchema = z.object({ lowRpm: z.number(), highRpm: z.number(), level: z.number() })
export type Band = z.infer<typeof bandSchema>

export const flagSchema = z.enum(['clear', 'near-ceiling', 'ambiguous', 'too-few-frames'])
export type Flag = z.infer<typeof flagSchema>

export const methodSchema = z.enum(['count', 'bearing', 'sphere', 'surface'])
export type Method = z.infer<typeof methodSchema>

export const ceilingLimitSchema = z.enum(['sense', 'seeing', 'smear', 'counting'])
export type CeilingLimit = z.infer<typeof ceilingLimitSchema>
export const ceilingSchema = z.object({ rpm: z.number(), limit: ceilingLimitSchema })
export type Ceiling = z.infer<typeof ceilingSchema>

/** One rate that explains the marks. `support` is 1 for the best and falls with its likelihood. */
export const candidateSchema = z.object({
  rpm: z.number().min(0),
  sense: senseSchema.nullable(),
  support: z.number(),
  plausible: z.boolean(),
  /** Unit vector, camera axes, where the method finds each candidate's own; else all turn about the reading's. */
  axis: z.object({ x: z.number(), y: z.number(), z: z.number() }).optional(),
})
export type Candidate = z.infer<typeof candidateSchema>

/**
 * What counting frames by eye would have said of the same hit: `turns` whole turns in `frames` frames, the
 * 95 % band of that (±0.776 frame), and the limits it cannot leave (±1 frame; none above for one frame).
 */
export const countedSchema = z.object({
  turns: z.number(),
  frames: z.number(),
  rpm: z.number(),
  lowRpm: z.number(),
  highRpm: z.number(),
  hardLowRpm: z.number().optional(),
  hardHighRpm: z.number().nullable().optional(),
})
export type Counted = z.infer<typeof countedSchema>

/** One named contribution to the band, as a standard uncertainty (JCGM 100:2008, 3.3.5 and 4.1). */
export const budgetLineSchema = z.object({
  source: z.string(),
  standardUncertaintyRpm: z.number().min(0),
  kind: z.enum(['random', 'systematic']),
  sharedByHits: z.boolean(),
})
export type BudgetLine = z.infer<typeof budgetLineSchema>

export const readingSchema = z.object({
  window: z.object({ fromFrame: z.int(), toFrame: z.int() }),
  method: methodSchema,
  rpm: z.number().min(0).nullable(),
  sense: senseSchema.nullable(),
  band: bandSchema.nullable(),
  standardUncertaintyRpm: z.number().nullable(),
  effectiveDof: z.number().nullable(),
  axis: z
    .object({
      x: z.number(),
      y: z.number(),
      z: z.number(),
      tiltDeg: z.number(),
      /** Root mean square angle to the true axis. */
      uncertaintyDeg: z.number().nullable(),
      /** Half-angle of the cone that holds the true axis at 95 %. */
      coneDeg: z.number().optional(),
    })
    .nullable(),
  parts: z.object({ topspinRpm: z.number(), sidespinRpm: z.number(), gyroRpm: z.number() }).nullable(),
  rotationPerFrameDeg: z.number().nullable(),
  framesPerRevolution: z.number().nullable(),
  flag: flagSchema,
  reasons: z.array(z.string()),
  ceiling: ceilingSchema.nullable(),
  candidates: z.array(candidateSchema),
  counted: countedSchema.nullable(),
  budget: z.array(budgetLineSchema),
  flight: z
    .object({
      speedMetresPerSecond: z.number(),
      launchAngleDeg: z.number().nullable(),
      standardUncertaintySpeed: z.number().nullable(),
    })
    .nullable(),
  framesUsed: z.int().min(0),
})
/** The spin of one hit, or the reason why it has none. rpm is at least 0; the sense is the camera's. */
export type Reading = z.infer<typeof readingSchema>

/** `whorl.reading/1`: what `whorl fit` and `whorl read` print. */
export const readingDocumentSchema = z.object({
  schema: z.literal('whorl.reading/1'),
  clip: clipSchema.nullable(),
  readings: z.array(readingSchema),
  warnings: z.array(warningSchema),
  software: z.object({ version: z.string(), methodVersion: z.string() }),
})
export type ReadingDocument = z.infer<typeof readingDocumentSchema>
