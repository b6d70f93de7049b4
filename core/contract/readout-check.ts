import { z } from 'zod'

/** What the clip shows: a mains lamp's bands on a wall, a pattern that spins, an edge that is moved to and fro. */
export const readoutWaySchema = z.enum(['lamp', 'spin', 'edge'])
export type ReadoutWay = z.infer<typeof readoutWaySchema>

/** `whorl.readout-check/1`: how long the sensor takes from its first row to its last. */
export const readoutCheckSchema = z.object({
  schema: z.literal('whorl.readout-check/1'),
  way: readoutWaySchema,
  /** True rate at which the clip was filmed. */
  captureFps: z.number().positive(),
  readoutSeconds: z.number().min(0),
  standardUncertaintySeconds: z.number().min(0),
  /**
   * What it does to the rpm of a ball that moves down so many picture heights a second: by what share a reading is
   * off that does not know of the readout, and the standard uncertainty that is left once it does.
   */
  rpmEffect: z.object({
    heightsPerSecond: z.number().positive(),
    uncorrectedRelative: z.number().min(0),
    leftRelative: z.number().min(0),
  }),
  remarks: z.array(z.string()),
})
export type ReadoutCheck = z.infer<typeof readoutCheckSchema>
