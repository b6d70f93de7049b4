import { z } from 'zod'
import { hitMarksSchema, provenanceSchema, verdictSchema, windowSchema } from './bench.ts'
import { takenFromSchema } from './cameras.ts'
import { clipSchema } from './clip.ts'
import { cellChangeSchema, mappingSchema, placeKindSchema } from './exchange.ts'
import { problemSchema } from './problem.ts'
import { bandSchema, ceilingLimitSchema, flagSchema, readingSchema } from './reading.ts'

const id = z.string().min(1).max(64)
const name = z.string().trim().min(1).max(200)
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, 'expected a day as 2026-05-31')

export const setUpSchema = z.object({ id, name, notes: z.string() })
export type SetUp = z.infer<typeof setUpSchema>
/** The article under test, with the ways it was dressed. Every paddle has at least the set-up "stock". */
export const paddleSchema = z.object({ id, name, notes: z.string(), setUps: z.array(setUpSchema).min(1) })
export type Paddle = z.infer<typeof paddleSchema>

/** What filmed a session. A null is "not known", never a default in disguise. */
export const cameraSchema = z.object({
  name: z.string(),
  captureFps: z.number().positive().nullable(),
  relativeUncertainty: z.number().min(0).nullable(),
  exposureSeconds: z.number().positive().nullable(),
  readoutSeconds: z.number().min(0).nullable(),
  readoutUncertaintySeconds: z.number().min(0).nullable(),
  focalLengthPx: z.number().positive().nullable(),
  /** The profile that filled these, with what it said then; a person may have changed them since. */
  takenFrom: takenFromSchema.nullable().optional(),
})
export type Camera = z.infer<typeof cameraSchema>

export const sessionDetailsSchema = z.object({
  day,
  place: z.string(),
  camera: cameraSchema,
  ball: z.object({ name: z.string(), diameterMetres: z.number().positive() }),
  hitBy: z.string(),
  maxRpm: z.number().positive().nullable(),
  clickStandardUncertaintyPx: z.number().positive().nullable(),
  notes: z.string(),
})
export type SessionDetails = z.infer<typeof sessionDetailsSchema>
export const sessionSchema = sessionDetailsSchema.extend({
  id,
  clips: z.int(),
  hits: z.int(),
  accepted: z.int(),
  heldBack: z.int(),
})
export type Session = z.infer<typeof sessionSchema>

/** A clip in the workspace. `probe` is null and `problem` says why when the file cannot be used (now). */
export const clipRecordSchema = z.object({
  id,
  sessionId: id,
  name: z.string(),
  path: z.string(),
  probe: clipSchema.nullable(),
  problem: problemSchema.nullable(),
  hits: z.int(),
  accepted: z.int(),
})
export type ClipRecord = z.infer<typeof clipRecordSchema>

/** One row of the readings table: a hit, whose it is, and what was read. `stale` says the marks changed since. */
export const hitRowSchema = z.object({
  hitId: id,
  clipId: id,
  sessionId: id,
  clipName: z.string(),
  day,
  setUpId: id.nullable(),
  paddle: z.string().nullable(),
  setUp: z.string().nullable(),
  window: windowSchema,
  verdict: verdictSchema,
  reading: readingSchema.nullable(),
  methodVersion: z.string().nullable(),
  stale: z.boolean(),
  notes: z.string(),
  /** Whose work the reading rests on; null while there is none. */
  provenance: provenanceSchema.nullable().optional(),
})
export type HitRow = z.infer<typeof hitRowSchema>

/** A hit as lists carry it, thousands at once: of its reading what a row shows. `hits.open` has the whole. */
export const listedHitSchema = hitRowSchema.extend({
  reading: readingSchema.pick({ rpm: true, band: true, flag: true, counted: true }).nullable(),
})
export type ListedHit = z.infer<typeof listedHitSchema>

/** What a reading took its camera and ball to be when it was made: values, not a link to where they stand. */
export const usedCameraSchema = z.object({
  name: z.string(),
  /** The camera profile that they came from; null for none. */
  profile: z.string().nullable(),
  captureFps: z.number().nullable(),
  relativeUncertainty: z.number().nullable(),
  exposureSeconds: z.number().nullable(),
  readoutSeconds: z.number().nullable(),
  readoutUncertaintySeconds: z.number().nullable(),
  focalLengthPx: z.number().nullable(),
  ballDiameterMetres: z.number(),
})
export type UsedCamera = z.infer<typeof usedCameraSchema>

/** Everything the bench needs to work on one hit. */
export const benchHitSchema = z.object({
  row: hitRowSchema,
  marks: hitMarksSchema,
  canUndo: z.boolean(),
  canRedo: z.boolean(),
  /** Null while there is no reading, or where one was made before this was kept. */
  used: usedCameraSchema.nullable().optional(),
  /** What the reading from the surface found beside its figure; null where there is none. */
  surface: z
    .object({
      /** As given or as found with the rotation; null: a far view. */
      focalLengthPx: z.number().positive().nullable(),
      /** What stands out most on the ball, where it is seen best: the mark to propose. */
      feature: z.object({ frame: z.int().min(0), xPx: z.number(), yPx: z.number() }).nullable(),
    })
    .nullable()
    .optional(),
})
export type BenchHit = z.infer<typeof benchHitSchema>

/** One paddle in one set-up, as it goes into a ratings database. */
export const ratingRowSchema = z.object({
  paddle: z.string(),
  setUp: z.string(),
  meanRpm: z.number(),
  band: bandSchema,
  hits: z.int(),
  flag: flagSchema,
  limit: ceilingLimitSchema.nullable(),
  settledReason: z.string(),
  captureFps: z.string(),
  methodVersion: z.string(),
  date: day,
  evidence: z.string(),
})
export type RatingRow = z.infer<typeof ratingRowSchema>

export const exportLineSchema = z.object({
  action: z.enum(['add', 'change', 'same', 'held-back']),
  paddle: z.string(),
  setUp: z.string(),
  reason: z.string(),
  before: ratingRowSchema.nullable(),
  after: ratingRowSchema.nullable(),
  /** The cells that will be written, old and new, by the table's own column names. */
  changes: z.array(cellChangeSchema),
  /** Names in the table that are almost this one: nothing is written until a person says which it is. */
  almost: z.array(z.string()),
})
export type ExportLine = z.infer<typeof exportLineSchema>

/** What an export will do (preview) or did (written). */
export const exportPlanSchema = z.object({
  target: z.string(),
  kind: placeKindSchema,
  /** Null for Whorl's own table. */
  mapping: mappingSchema.nullable(),
  lines: z.array(exportLineSchema),
  written: z.boolean(),
})
export type ExportPlan = z.infer<typeof exportPlanSchema>
