import { z } from 'zod'
import { benchMarkSchema } from './bench.ts'
import { outlineSchema } from './marks.ts'

const id = z.string().min(1).max(64)

/** What is marked again: one mark in one frame of a hit. */
export const studyItemSchema = z.object({ hit: z.string(), frame: z.int().min(0), mark: z.string() })
export type StudyItem = z.infer<typeof studyItemSchema>

/** What a person saw when a mark was shown again. "Unseen": looked for and not found. */
export const studySeenSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('point'), xPx: z.number(), yPx: z.number() }),
  z.strictObject({ kind: z.literal('direction'), bearingDeg: z.number() }),
  z.strictObject({ kind: z.literal('unseen') }),
])
export type StudySeen = z.infer<typeof studySeenSchema>

/** One marking of one item by one person. Without an outline a point has a place but no bearing. */
export type StudyRemark = StudyItem & {
  person: string
  symmetryOrder: number
  outline: z.infer<typeof outlineSchema> | null
  seen: StudySeen
}

/** What is shown to be marked: the ball's place and what to look for, never where it was marked before. */
export const studyTaskSchema = z.object({
  hitId: id,
  clipId: id,
  frame: z.int().min(0),
  mark: benchMarkSchema,
  outline: outlineSchema,
})
export type StudyTask = z.infer<typeof studyTaskSchema>

/** One person's marking study. `done` of its `tasks` are marked, in their order. */
export type StudyHead = { id: string; sessionId: string; person: string; tasks: number; done: number }
export type Study = Omit<StudyHead, 'tasks'> & { tasks: StudyTask[] }
/** A session's studies, oldest first, and how many of its marks could be marked again. */
export type StudyList = { markable: number; hits: number; studies: StudyHead[] }

/** A standard deviation with the interval that holds the true one with the probability `level`. */
export const spreadSchema = z.object({
  standardDeviation: z.number(),
  low: z.number(),
  high: z.number(),
  level: z.number(),
  effectiveDof: z.number(),
})
export type Spread = z.infer<typeof spreadSchema>

/** A mean difference; the truth lies within ± the expanded uncertainty with the probability `level`. */
export const differenceSchema = z.object({
  mean: z.number(),
  standardUncertainty: z.number(),
  expandedUncertainty: z.number(),
  level: z.number(),
})
export type Difference = z.infer<typeof differenceSchema>

/**
 * One person's repeatability (ISO 5725-1, 3.13): how far two markings of the same thing lie apart.
 * `px` is one coordinate's standard deviation, both coordinates pooled: a stated click error.
 * `pairs` counts second markings. Null figures have their reason.
 */
export const repeatabilitySchema = z.object({
  person: z.string(),
  remarks: z.int(),
  unseen: z.int(),
  items: z.int(),
  pairs: z.int(),
  px: spreadSchema.nullable(),
  xPx: z.number().nullable(),
  yPx: z.number().nullable(),
  bearingDeg: spreadSchema.nullable(),
  /** Largest first. They are in the figures; `withoutOutlyingPx` is what would be left without the outliers. */
  outlying: z.array(studyItemSchema.extend({ apartPx: z.number(), grade: z.enum(['straggler', 'outlier']) })),
  withoutOutlyingPx: z.number().nullable(),
  reason: z.string().nullable(),
})
export type Repeatability = z.infer<typeof repeatabilitySchema>

/** How `person` marks on the average against another: x to the right, y down, bearing clockwise. */
export const studyBiasSchema = z.object({
  person: z.string(),
  against: z.string(),
  items: z.int(),
  xPx: differenceSchema.nullable(),
  yPx: differenceSchema.nullable(),
  bearingDeg: differenceSchema.nullable(),
  reason: z.string().nullable(),
})
export type StudyBias = z.infer<typeof studyBiasSchema>

/** ISO 5725-2 over all people: s_L between them, s_R of any one marking by any of them, px of one coordinate. */
export const reproducibilitySchema = z.object({
  people: z.int(),
  items: z.int(),
  betweenPeoplePx: z.number().nullable(),
  reproducibilityPx: z.number().nullable(),
  reason: z.string().nullable(),
})
export type Reproducibility = z.infer<typeof reproducibilitySchema>

export const studyFiguresSchema = z.object({
  people: z.array(repeatabilitySchema),
  bias: z.array(studyBiasSchema),
  reproducibility: reproducibilitySchema.nullable(),
})
export type StudyFigures = z.infer<typeof studyFiguresSchema>

/** How far each second marking lies from the first, for a picture: px, x right, y down. */
export type StudyDot = { person: string; dxPx: number; dyPx: number; outlying: boolean }
/** A session's figures; `bench` compares each person with the marks that stand on the bench. */
export type StudyReport = StudyFigures & { bench: StudyBias[]; dots: StudyDot[] }

/** `whorl.study/1`: what `whorl study MARKS MARKS… --json` prints. */
export const studyDocumentSchema = studyFiguresSchema.extend({
  schema: z.literal('whorl.study/1'),
  files: z.array(z.object({ path: z.string(), person: z.string() })),
  warnings: z.array(z.object({ code: z.string(), message: z.string() })),
  software: z.object({ version: z.string() }),
})
export type StudyDocument = z.infer<typeof studyDocumentSchema>
