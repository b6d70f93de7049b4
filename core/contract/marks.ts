import { z } from 'zod'

/** As the camera sees the ball turn: clockwise on the screen is a rotation vector with z > 0. */
export const senseSchema = z.enum(['clockwise', 'counter-clockwise'])
export type Sense = z.infer<typeof senseSchema>

/** The ball's circle in one frame, in pixels of the picture as shown (x right, y down). */
export const outlineSchema = z.object({ xPx: z.number(), yPx: z.number(), radiusPx: z.number().positive() })
export type Outline = z.infer<typeof outlineSchema>

/** A mark seen as a point on the ball. `smear` holds both ends of its streak where a person marked them. */
export const pointSightingSchema = z.strictObject({
  mark: z.string(),
  xPx: z.number(),
  yPx: z.number(),
  smear: z
    .strictObject({ fromXPx: z.number(), fromYPx: z.number(), toXPx: z.number(), toYPx: z.number() })
    .optional(),
})
/** A mark seen as a direction: 0 to the right, growing clockwise on the screen. */
export const bearingSightingSchema = z.strictObject({ mark: z.string(), bearingDeg: z.number() })
export const sightingSchema = z.union([pointSightingSchema, bearingSightingSchema])
export type Sighting = z.infer<typeof sightingSchema>

export const markedFrameSchema = z.object({
  index: z.int().min(0),
  timeSeconds: z.number().optional(),
  outline: outlineSchema.optional(),
  seen: z.array(sightingSchema),
  hidden: z.array(z.string()).optional(),
})
export type MarkedFrame = z.infer<typeof markedFrameSchema>

/**
 * `whorl.marks/1`: what a person (or the program) saw on a clip.
 *
 * `timeSeconds` is real time; without it a frame's time is index / fps. Positions need an outline in
 * their frame, bearings do not. `capture.tickSeconds`, where given, is the step that frame times were
 * rounded to. `settled` is a person's choice between candidates, with the reason that travels with it.
 */
export const marksSchema = z.object({
  schema: z.literal('whorl.marks/1'),
  capture: z.object({
    fps: z.number().positive(),
    relativeUncertainty: z.number().min(0).optional(),
    exposureSeconds: z.number().min(0).optional(),
    readoutSeconds: z.number().min(0).optional(),
    readoutUncertaintySeconds: z.number().min(0).optional(),
    focalLengthPx: z.number().positive().optional(),
    tickSeconds: z.number().positive().optional(),
  }),
  picture: z.object({ widthPx: z.int().positive(), heightPx: z.int().positive() }),
  ball: z.object({ diameterMetres: z.number().positive() }),
  plausible: z.object({ maxRpm: z.number().positive().optional(), sense: senseSchema.optional() }).optional(),
  marks: z.array(z.object({ id: z.string().min(1), symmetryOrder: z.int().min(1).max(8) })).min(1),
  frames: z.array(markedFrameSchema),
  click: z.object({ standardUncertaintyPx: z.number().positive().optional() }).optional(),
  /** Half-width of the counted band that the reviewer asks for: it sets the counting limit. */
  wantedHalfWidthRpm: z.number().positive().optional(),
  /** Lets the spin change evenly within the window; the reading is then the rate at the first mark. */
  withDecay: z.boolean().optional(),
  settled: z.object({ rpm: z.number().min(0), sense: senseSchema, reason: z.string().min(1) }).optional(),
})
export type Marks = z.infer<typeof marksSchema>
