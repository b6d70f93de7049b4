import { z } from 'zod'

/**
 * What a finding does to a reading: nothing; Whorl corrects it; the band is wider or a part of the reading less
 * sure; no figure should be made from it.
 */
export const effectSchema = z.enum(['none', 'correct', 'widen', 'refuse'])
export type Effect = z.infer<typeof effectSchema>

/** One thing about a clip or a reading that a person should know before trusting a figure; findings on clips say what to do. */
export const warningSchema = z.object({
  code: z.string(),
  message: z.string(),
  effect: effectSchema.optional(),
  todo: z.string().optional(),
})
export type Warning = z.infer<typeof warningSchema>

const frameIndex = z.int().min(0)

/** Where a capture rate came from: a person said so, the file says so, its frame times say so, nobody knows. */
export const captureSourceSchema = z.enum(['user', 'metadata', 'timestamps', 'unknown'])
export type CaptureSource = z.infer<typeof captureSourceSchema>

/** `whorl.clip/1`: what a probe of one video file found. Sizes are as shown, after the rotation. */
export const clipSchema = z.object({
  schema: z.literal('whorl.clip/1'),
  path: z.string(),
  sha256: z.string(),
  bytes: z.int().min(0),
  container: z.string(),
  codec: z.string(),
  pixelFormat: z.string(),
  widthPx: z.int().positive(),
  heightPx: z.int().positive(),
  rotationDeg: z.number(),
  frames: z.int().min(0),
  durationSeconds: z.number().min(0),
  playbackFps: z.number().positive().nullable(),
  timestamps: z.object({
    tickSeconds: z.number().positive().nullable(),
    even: z.boolean(),
    gaps: z.array(z.object({ afterFrame: frameIndex, missing: z.int().positive() })),
    repeats: z.array(frameIndex),
  }),
  capture: z.object({
    fps: z.number().positive().nullable(),
    source: captureSourceSchema,
    relativeUncertainty: z.number().min(0).nullable(),
  }),
  warnings: z.array(warningSchema),
})
export type Clip = z.infer<typeof clipSchema>
