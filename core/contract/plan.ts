import { z } from 'zod'
import { budgetLineSchema, ceilingLimitSchema, flagSchema, methodSchema } from './reading.ts'

/**
 * What is put on the ball: a dot, two dots a quarter turn apart, an arrow that reads one way, or a plain line,
 * which looks the same after half a turn. Dots are followed as points, arrow and line by their direction.
 */
export const plannedMarkSchema = z.enum(['dot', 'two-dots', 'arrow', 'line'])
export type PlannedMark = z.infer<typeof plannedMarkSchema>

const positive = z.number().positive()

/** A camera, a ball and a hit, before anything was filmed. The ball flies across the picture's middle. */
export const planSetUpSchema = z.strictObject({
  captureFps: positive.max(1e6),
  exposureSeconds: positive,
  readoutSeconds: z.number().min(0),
  widthPx: z.int().min(16).max(20_000),
  heightPx: z.int().min(16).max(20_000),
  focalLengthPx: positive,
  /** From the lens to the ball. */
  distanceMetres: positive,
  ballDiameterMetres: positive,
  rpm: positive.max(1e5),
  speedMetresPerSecond: positive,
  mark: plannedMarkSchema,
  /** Angle between the mark and the spin axis's end that faces the camera. */
  markFromAxisDeg: z.number().min(0).max(180),
  /** Angle between the spin axis and the line of sight: 0 for topspin filmed from the side. */
  axisTiltDeg: z.number().min(0).max(90),
  senseKnown: z.boolean(),
  /** Standard uncertainty of a click, px a coordinate. */
  clickPx: positive,
  /** People mark no more frames of a hit than this. */
  mostFrames: z.int().min(2).max(200),
  /** How much the true spin differs from hit to hit, standard deviation. */
  betweenHitSdRpm: z.number().min(0),
  /** Half-width of the band that the paddle's mean should have; also what counting is held against. */
  wantedHalfWidthRpm: positive,
  /** The exposure that the picture is bright enough with now; null when not known. */
  presentExposureSeconds: positive.nullable(),
})
export type PlanSetUp = z.infer<typeof planSetUpSchema>

const figure = z.number()

/** `whorl.plan/1`: what a camera can do with a hit, before it is filmed. */
export const planSchema = z.object({
  schema: z.literal('whorl.plan/1'),
  setUp: planSetUpSchema,
  rotationPerFrameDeg: figure,
  framesPerRevolution: figure,
  /** What the ball turns, and how far a mark at the rim moves, while the shutter is open. */
  smearDeg: figure,
  smearPx: figure,
  /** What the flight moves the whole ball meanwhile. */
  flightSmearPx: figure,
  ballDiameterPx: figure,
  /** Frames that hold the whole ball, the turns in them, and those that would be marked: `framesMarked`, one in `markedEvery`. */
  framesInView: z.int(),
  turnsInView: figure,
  framesMarked: z.int(),
  markedEvery: z.int().positive(),
  /** Part of a turn for which the mark shows. */
  visiblePart: figure,
  /** Lowest first; `headroom` is the ceiling over the spin. */
  ceilings: z.array(z.object({ rpm: figure, limit: ceilingLimitSchema, headroom: figure })),
  flag: flagSchema,
  reasons: z.array(z.string()),
  expected: z.object({
    method: methodSchema,
    countingHalfWidthRpm: figure.nullable(),
    fittingHalfWidthRpm: figure.nullable(),
    hitsForMeanHalfWidth: z.object({ halfWidthRpm: figure, hits: z.int().nullable(), reason: z.string() }),
    budget: z.array(budgetLineSchema),
  }),
  /** Stops more light than now that the exposure needs; negative: less. Null where the present one is unknown. */
  lightStops: figure.nullable(),
  /** Where a ball is drawn sharp; `farMetres` null: for ever. Null where f-number or sensor are not known. */
  sharp: z.object({ nearMetres: figure, farMetres: figure.nullable() }).nullable(),
  /** What limits, in one sentence. */
  limits: z.string(),
  /** What to change, the most helpful first. */
  advice: z.array(z.string()),
})
export type Plan = z.infer<typeof planSchema>
