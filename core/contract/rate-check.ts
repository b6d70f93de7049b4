import { z } from 'zod'

/** What a clip of something of known speed is taken of. */
export const rateCheckWaySchema = z.enum(['turntable', 'drop', 'lamp', 'counter'])

/** `whorl.rate-check/1`: the rate at which a camera really filmed. */
export const rateCheckSchema = z.object({
  schema: z.literal('whorl.rate-check/1'),
  way: rateCheckWaySchema,
  nominalFps: z.number().positive(),
  captureFps: z.number().positive(),
  /** Standard uncertainty of the capture rate, relative. */
  relativeUncertainty: z.number().min(0),
  /** What a reading made at the nominal rate is to be multiplied by. */
  rpmFactor: z.number().positive(),
  remarks: z.array(z.string()),
})
export type RateCheck = z.infer<typeof rateCheckSchema>
