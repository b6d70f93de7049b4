import { z } from 'zod'
import type { Problem } from './problem.ts'

const id = z.string().min(1).max(64)

/**
 * What a picture shows. Of one hit: `bearing` (against time), `flight` (all places of the ball in one
 * photograph), `turned-back` (every ball turned back to the first frame's pose by the reading). Of a session:
 * `hits`, a strip of each. Of one paddle: `percentiles`. Of two: `difference`. Of all, those named, or those of
 * a session: `dots`; of all or those named: `ranking`, `rate` (the band to expect against the capture rate).
 */
export const pictureKindSchema = z.enum([
  'bearing',
  'flight',
  'turned-back',
  'hits',
  'dots',
  'ranking',
  'percentiles',
  'difference',
  'rate',
])
export type PictureKind = z.infer<typeof pictureKindSchema>

/** Light and dark have a paper of their own; the two others lie on the page's, a light or a dark one. */
export const themeSchema = z.enum(['light', 'dark', 'transparent', 'transparent-dark'])
export type Theme = z.infer<typeof themeSchema>

/** A colour as `#rrggbb`. */
const colour = z
  .string()
  .regex(/^#[0-9a-f]{6}$/i)
  .toLowerCase()

/** Pairs of data hues that stay apart in grey and to colour-blind eyes. */
export const accentNameSchema = z.enum(['blue-amber', 'green-orange', 'plum-gold', 'red-blue', 'greys'])
export type AccentName = z.infer<typeof accentNameSchema>
/** Two data hues: one of the proven pairs, or a person's own. */
export const accentsSchema = z.union([accentNameSchema, z.strictObject({ first: colour, second: colour })])
export type Accents = z.infer<typeof accentsSchema>

/** How figures are written: what sets groups of three apart, then the decimal sign. */
export const numberFormSchema = z.enum(['space-point', 'space-comma', 'comma-point', 'point-comma'])
export type NumberForm = z.infer<typeof numberFormSchema>
/** What spin is counted in. */
export const spinUnitSchema = z.enum(['rpm', 'turns-per-second', 'rad-per-second'])
export type SpinUnit = z.infer<typeof spinUnitSchema>
/** How spin is said in figures. */
export const figureFormSchema = z.strictObject({ numbers: numberFormSchema, unit: spinUnitSchema })
export type FigureForm = z.infer<typeof figureFormSchema>
export const usualFigureForm: FigureForm = { numbers: 'space-point', unit: 'rpm' }

/** How pictures look: chosen once, the same for all of a publication. */
export const lookSchema = z.strictObject({
  theme: themeSchema,
  fontPx: z.number().min(6).max(96),
  accents: accentsSchema.default('blue-amber'),
  figures: figureFormSchema.default(usualFigureForm),
})
export type Look = z.infer<typeof lookSchema>
export const usualLook: Look = {
  theme: 'light',
  fontPx: 14,
  accents: 'blue-amber',
  figures: usualFigureForm,
}

/** A picture's own size, px; without a height the drawing takes what it needs. */
export const sizeSchema = z.strictObject({
  widthPx: z.int().min(160).max(8000),
  heightPx: z.int().min(120).max(8000).nullable(),
})
export type Size = z.infer<typeof sizeSchema>
export const usualSize: Size = { widthPx: 800, heightPx: null }

/**
 * What is published: a hit, a session, or paddles in their set-ups; no set-up named means all. Where a hit is
 * shown and one set-up is named, it is the hit from the middle of that one's.
 */
export const subjectSchema = z.strictObject({
  hitId: id.optional(),
  sessionId: id.optional(),
  setUpIds: z.array(id).max(500).optional(),
})
export type Subject = z.infer<typeof subjectSchema>

export const pictureOrderSchema = z.strictObject({
  kind: pictureKindSchema,
  of: subjectSchema,
  look: lookSchema,
  size: sizeSchema,
  format: z.enum(['svg', 'png']),
})
export type PictureOrder = z.infer<typeof pictureOrderSchema>

/** A report on one paddle in a set-up, on a session, or on set-ups against each other; of all, lines to paste alone. */
export const reportOrderSchema = z.strictObject({
  of: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('paddle'), setUpId: id }),
    z.strictObject({ kind: z.literal('session'), sessionId: id }),
    z.strictObject({ kind: z.literal('comparison'), setUpIds: z.array(id).min(2).max(12) }),
    z.strictObject({ kind: z.literal('all') }),
  ]),
  /** A page, or a line a paddle: plain, Markdown or a row of a CSV table. */
  format: z.enum(['html', 'pdf', 'txt', 'md', 'csv']),
  accents: accentsSchema.default('blue-amber'),
  figures: figureFormSchema.default(usualFigureForm),
})
export type ReportOrder = z.infer<typeof reportOrderSchema>

/**
 * What an annotated clip shows: the whole frame, the ball held in the middle, both side by side, or both
 * above each other in portrait.
 */
export const clipViewSchema = z.enum(['frame', 'ball', 'both', 'portrait'])
export type ClipView = z.infer<typeof clipViewSchema>

/** The colours of what is drawn over a photograph. The usual ones do not occur on a ball, a wall or a court. */
export const clipInkSchema = z.strictObject({ outline: colour, mark: colour, axis: colour })
export type ClipInk = z.infer<typeof clipInkSchema>
export const usualClipInk: ClipInk = { outline: '#ffffff', mark: '#ff2fd0', axis: '#40e0ff' }

/** An annotated clip's own settings. `shortPx` is its shorter side; letters without a size take what fits. */
export const clipStyleSchema = z.strictObject({
  view: clipViewSchema,
  /** How many times slower than real time. */
  slowed: z.number().min(1).max(1000),
  shortPx: z.int().min(240).max(2160),
  ink: clipInkSchema.default(usualClipInk),
  fontPx: z.number().min(8).max(96).nullable().default(null),
})
export type ClipStyle = z.infer<typeof clipStyleSchema>
export const usualClip: ClipStyle = {
  view: 'frame',
  slowed: 8,
  shortPx: 720,
  ink: usualClipInk,
  fontPx: null,
}

export const clipFormatSchema = z.enum(['mp4', 'gif', 'webp'])
export type ClipFormat = z.infer<typeof clipFormatSchema>
/** An annotated clip of a hit. */
export const clipOrderSchema = z.strictObject({
  hitId: id,
  ...clipStyleSchema.shape,
  format: clipFormatSchema,
  figures: figureFormSchema.default(usualFigureForm),
})
export type ClipOrder = z.infer<typeof clipOrderSchema>

/** A look that was kept under a name, for screen and command line. */
export const savedLookSchema = z.strictObject({
  name: z
    .string()
    .trim()
    .min(1)
    .max(60)
    .refine(
      name => !themeSchema.options.some(theme => theme === name.toLowerCase()),
      'is a theme’s own word',
    ),
  look: lookSchema,
  size: sizeSchema,
  clip: clipStyleSchema,
})
export type SavedLook = z.infer<typeof savedLookSchema>

/** Which paddles are meant when many are published at once: of a season (a year), a session, or all. */
export const manySchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('season'), year: z.int().min(1900).max(9999) }),
  z.strictObject({ kind: z.literal('session'), sessionId: id }),
  z.strictObject({ kind: z.literal('all') }),
])
export type Many = z.infer<typeof manySchema>

/** A file for each of many paddles, into a folder: what would be ordered for one, without saying for which. */
export const batchOrderSchema = z.strictObject({
  of: manySchema,
  folder: z.string().min(1).max(4096),
  make: z.discriminatedUnion('what', [
    z.strictObject({ what: z.literal('picture'), order: pictureOrderSchema.omit({ of: true }) }),
    z.strictObject({ what: z.literal('report'), order: reportOrderSchema.omit({ of: true }) }),
    z.strictObject({ what: z.literal('clip'), order: clipOrderSchema.omit({ hitId: true }) }),
  ]),
})
export type BatchOrder = z.infer<typeof batchOrderSchema>
/** What became of each paddle; a bad one never stops the others. */
export type BatchDone = { made: { paddle: string; path: string | null; problem: Problem | null }[] }

/** A file as it is to be written: a name to propose, its bytes, and what a person should know of it. */
export type PublishedFile = { name: string; mediaType: string; base64: string; notes: string[] }
