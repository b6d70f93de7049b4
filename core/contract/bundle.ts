import { z } from 'zod'
import { settledSchema } from './bench.ts'
import { clipSchema } from './clip.ts'
import { marksSchema } from './marks.ts'
import { hitRowSchema, ratingRowSchema, sessionDetailsSchema } from './workspace.ts'

/** One hit with all that its figure rests on. `marks` is null where it was read from the surface, or not at all. */
export const bundledHitSchema = z.object({
  row: hitRowSchema,
  settled: settledSchema.nullable(),
  cameraName: z.string(),
  captureFps: z.number().positive().nullable(),
  digest: z.string().nullable(),
  marks: marksSchema.nullable(),
  /** Small pictures of the first, middle and last frame, where the clip was at hand. */
  pictures: z.array(z.string()),
})
export type BundledHit = z.infer<typeof bundledHitSchema>

/** `whorl.bundle/1`: `bundle.json` in the zip that `whorl bundle` makes. Paths of clips are left out. */
export const bundleSchema = z.object({
  schema: z.literal('whorl.bundle/1'),
  of: z.object({ kind: z.enum(['paddle', 'session']), name: z.string() }),
  software: z.object({ version: z.string(), methodVersion: z.string() }),
  sessions: z.array(sessionDetailsSchema.extend({ id: z.string() })),
  clips: z.array(z.object({ id: z.string(), name: z.string(), clip: clipSchema.nullable() })),
  hits: z.array(bundledHitSchema),
  /** What these hits say of each paddle and set-up. */
  figures: z.array(ratingRowSchema),
})
export type Bundle = z.infer<typeof bundleSchema>

/** `manifest.json` in the zip: every other file with its SHA-256. */
export const manifestSchema = z.object({
  schema: z.literal('whorl.manifest/1'),
  files: z.array(z.object({ path: z.string(), sha256: z.string() })),
})

/** One figure that was made anew. `not-checked` has its reason. */
export const verifiedSchema = z.object({
  what: z.string(),
  verdict: z.enum(['same', 'different', 'not-checked']),
  said: z.string(),
})
export type Verified = z.infer<typeof verifiedSchema>
/** `whorl.verify/1`: what `whorl verify BUNDLE --json` prints. */
export const verifyDocumentSchema = z.object({
  schema: z.literal('whorl.verify/1'),
  path: z.string(),
  of: z.object({ kind: z.enum(['paddle', 'session']), name: z.string() }),
  same: z.boolean(),
  madeBy: z.object({ version: z.string(), methodVersion: z.string() }),
  checkedBy: z.object({ version: z.string(), methodVersion: z.string() }),
  figures: z.array(verifiedSchema),
})
export type VerifyDocument = z.infer<typeof verifyDocumentSchema>
