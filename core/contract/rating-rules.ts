import { z } from 'zod'

const name = z.string().trim().min(1).max(60)

export const percentileDefinitionSchema = z.enum(['strictly-below', 'mid-rank', 'inclusive'])
/** What a percentile counts; core/ratings/percentile.ts says each in full. */
export type PercentileDefinition = z.infer<typeof percentileDefinitionSchema>

/** Tiers from the person's own rates, or from the percentiles of all paddles. Whatever reaches none is below all. */
export const tierRulesSchema = z.discriminatedUnion('by', [
  z.object({
    by: z.literal('rpm'),
    tiers: z
      .array(z.object({ name, fromRpm: z.number().min(0).max(1e6) }))
      .min(1)
      .max(20),
  }),
  z.object({
    by: z.literal('percentile'),
    tiers: z
      .array(z.object({ name, fromPercentile: z.number().min(0).max(100) }))
      .min(1)
      .max(20),
  }),
])
export type TierRules = z.infer<typeof tierRulesSchema>

/** How a workspace places its paddles. */
export const ratingRulesSchema = z.object({
  percentileDefinition: percentileDefinitionSchema,
  tiers: tierRulesSchema,
  /** The set-up that is hit in every session, so that sessions can be told apart from paddles. */
  referenceSetUpId: z.string().min(1).max(64).nullable(),
})
export type RatingRules = z.infer<typeof ratingRulesSchema>

/** What stands where nobody has said anything: the quarters of all paddles. */
export const usualRules: RatingRules = {
  percentileDefinition: 'strictly-below',
  tiers: {
    by: 'percentile',
    tiers: [
      { name: 'top quarter', fromPercentile: 75 },
      { name: 'second quarter', fromPercentile: 50 },
      { name: 'third quarter', fromPercentile: 25 },
      { name: 'last quarter', fromPercentile: 0 },
    ],
  },
  referenceSetUpId: null,
}
