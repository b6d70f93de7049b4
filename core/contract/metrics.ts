import { z } from 'zod'

const id = z.string().min(1).max(64)

/**
 * A named value of a paddle that was measured elsewhere: swing weight, price, shape. `setUpId` is null for
 * what holds for the paddle however it is dressed. A number that was not one in its table is text.
 */
export const metricSchema = z.object({
  paddleId: id,
  setUpId: id.nullable(),
  name: z.string(),
  unit: z.string(),
  value: z.union([z.number(), z.string()]),
  /** The table that it came from. */
  source: z.string(),
  /** ISO 8601, UTC. */
  importedAt: z.string(),
})
export type Metric = z.infer<typeof metricSchema>
export type MetricValue = Pick<Metric, 'name' | 'unit' | 'value'>
