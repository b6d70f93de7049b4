import { z } from 'zod'

/** From a ball of known size at a known distance, a field of view in degrees, or the width that a picture spans. */
export const focalWaySchema = z.enum(['ball', 'view', 'width'])
export type FocalWay = z.infer<typeof focalWaySchema>

/** `whorl.focal-check/1`: a camera's focal length in pixels of its picture. */
export const focalCheckSchema = z.object({
  schema: z.literal('whorl.focal-check/1'),
  way: focalWaySchema,
  focalLengthPx: z.number().positive(),
  standardUncertaintyPx: z.number().min(0),
  /** Field of view across the picture that goes with it. */
  acrossDeg: z.number().positive(),
  remarks: z.array(z.string()),
})
export type FocalCheck = z.infer<typeof focalCheckSchema>
