import { z } from 'zod'
import { senseSchema } from './marks.ts'

/** A mark is followed as a point on the ball, or as a logo's own direction (a line through the ball). */
export const markKindSchema = z.enum(['point', 'direction'])
export type MarkKind = z.infer<typeof markKindSchema>

const frame = z.int().min(0)
const px = z.number()
const markId = z.string().min(1).max(60)

export const benchMarkSchema = z.object({
  id: markId,
  kind: markKindSchema,
  symmetryOrder: z.int().min(1).max(8),
})
export type BenchMark = z.infer<typeof benchMarkSchema>

export const placedOutlineSchema = z.object({
  frame,
  xPx: px,
  yPx: px,
  radiusPx: z.number().positive(),
  /** The program found it and nobody has put it right; left out: a person placed it. */
  found: z.literal(true).optional(),
})
export type PlacedOutline = z.infer<typeof placedOutlineSchema>

/** The program proposed it and a person accepted it with the others; left out: a person clicked it. */
const accepted = z.literal(true).optional()

/** What a person saw of one mark in one frame. "Hidden" is seen too: the mark was looked for and is behind. */
export const placedSightingSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('point'), frame, mark: markId, xPx: px, yPx: px, accepted }),
  z.object({ kind: z.literal('direction'), frame, mark: markId, bearingDeg: z.number(), accepted }),
  z.object({ kind: z.literal('hidden'), frame, mark: markId, accepted }),
])
export type PlacedSighting = z.infer<typeof placedSightingSchema>

export const windowSchema = z.object({ fromFrame: frame, toFrame: frame })
export type FrameWindow = z.infer<typeof windowSchema>

export const settledSchema = z.object({
  rpm: z.number().min(0),
  sense: senseSchema,
  reason: z.string().min(1).max(500),
})
export const verdictSchema = z.object({
  state: z.enum(['open', 'accepted', 'held-back']),
  reason: z.string().max(500),
})
export type Verdict = z.infer<typeof verdictSchema>

/**
 * What a hit's reading is made from. A hit that was read from the ball's surface stays so, whatever is marked
 * on it, until a person says that the marks shall count.
 */
export const readFromSchema = z.enum(['marks', 'surface'])
export type ReadFrom = z.infer<typeof readFromSchema>

/** Whose work a reading rests on: a person's clicks, a proposal that a person accepted, or the program's alone. */
export const provenanceSchema = z.enum(['clicked', 'accepted', 'untouched'])
export type Provenance = z.infer<typeof provenanceSchema>

/**
 * All that a person has put on one hit. Outlines are the placed ones only; the frames between are
 * interpolated from them (core/marking), never stored.
 */
export const hitMarksSchema = z.object({
  window: windowSchema,
  marks: z.array(benchMarkSchema),
  outlines: z.array(placedOutlineSchema),
  sightings: z.array(placedSightingSchema),
  sense: senseSchema.nullable(),
  settled: settledSchema.nullable(),
  verdict: verdictSchema,
  /** Left out: from the marks. */
  readFrom: readFromSchema.optional(),
})
export type HitMarks = z.infer<typeof hitMarksSchema>

const singleEditSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('set-window'), window: windowSchema }),
  z.object({ kind: z.literal('place-outline'), outline: placedOutlineSchema }),
  z.object({ kind: z.literal('remove-outline'), frame }),
  z.object({ kind: z.literal('place-sighting'), sighting: placedSightingSchema }),
  z.object({ kind: z.literal('remove-sighting'), frame, mark: markId }),
  z.object({ kind: z.literal('put-mark'), mark: benchMarkSchema }),
  z.object({ kind: z.literal('remove-mark'), mark: markId }),
  z.object({ kind: z.literal('set-sense'), sense: senseSchema.nullable() }),
  z.object({ kind: z.literal('settle'), settled: settledSchema.nullable() }),
  z.object({ kind: z.literal('decide'), verdict: verdictSchema }),
  z.object({ kind: z.literal('read-from'), source: readFromSchema }),
])
export type SingleEdit = z.infer<typeof singleEditSchema>

/** One step of a person's work on a hit: saved at once, undone and redone as one. */
export const editSchema = z.discriminatedUnion('kind', [
  ...singleEditSchema.options,
  z.object({ kind: z.literal('together'), edits: z.array(singleEditSchema).min(1).max(5000) }),
])
export type Edit = z.infer<typeof editSchema>
