import type { TierRules } from '../contract/rating-rules.ts'
import type { NextTier } from '../contract/standings.ts'
import { quantile } from '../numerics/quantile.ts'
import { bandOfMean, type KnownMean, probabilityAbove, standardUncertaintyOf } from './known-mean.ts'

/** A tier holds what reaches `fromRpm` and not the next tier's. The lowest tier has no floor (−∞). */
export type Tier = { name: string; fromRpm: number }
export type TierPlace = {
  tier: string
  /** The tier across the nearest cut-off inside the band, and the probability that the mean lies there or beyond. */
  next: NextTier
}

/** No band is wider than this times its uncertainty: Student's t at 97.5 % with one degree of freedom. */
const widest = 12.71

/** A mean's tier, and the likeliest other one when the band crosses a cut-off. */
export function tierOf(known: KnownMean, tiers: readonly Tier[]): TierPlace {
  const fromTop = isFromTop(tiers) ? tiers : tiers.toSorted((a, b) => b.fromRpm - a.fromRpm)
  const place = fromTop.findIndex(tier => known.meanRpm >= tier.fromRpm)
  const toNearest = Math.min(
    (fromTop[place - 1]?.fromRpm ?? Number.POSITIVE_INFINITY) - known.meanRpm,
    known.meanRpm - fromTop[place]!.fromRpm,
  )
  const reach = widest * standardUncertaintyOf(known)
  // Most means of thousands lie far from all cut-offs, and are asked no more.
  if (toNearest > reach) return { tier: fromTop[place]!.name, next: null }
  const near = [
    { tier: fromTop[place - 1], cutOff: fromTop[place - 1]?.fromRpm, side: 1 },
    { tier: fromTop[place + 1], cutOff: fromTop[place]!.fromRpm, side: -1 },
  ].filter(({ cutOff }) => cutOff !== undefined && Math.abs(cutOff - known.meanRpm) <= reach)
  const band = near.length > 0 ? bandOfMean(known) : null
  const next = near.flatMap(({ tier, cutOff, side }) => {
    if (tier === undefined || cutOff! < band!.lowRpm || cutOff! > band!.highRpm) return []
    const above = probabilityAbove(known, cutOff!)
    return [{ tier: tier.name, probability: side > 0 ? above : 1 - above }]
  })
  return {
    tier: fromTop[place]!.name,
    next: next.toSorted((a, b) => b.probability - a.probability)[0] ?? null,
  }
}

const isFromTop = (tiers: readonly Tier[]) =>
  tiers.every((tier, i) => i === 0 || tier.fromRpm <= tiers[i - 1]!.fromRpm)

/** The tiers that rules make of all means: by percentile they begin at those of definition 7 (`quantile`). */
export function tiersOf(rules: TierRules, means: readonly number[]): Tier[] {
  const tiers =
    rules.by === 'rpm'
      ? rules.tiers
      : rules.tiers.map(({ name, fromPercentile }) => ({
          name,
          fromRpm: fromPercentile > 0 ? quantile(means, fromPercentile / 100) : Number.NEGATIVE_INFINITY,
        }))
  const hasFloor = tiers.some(tier => tier.fromRpm === Number.NEGATIVE_INFINITY)
  return hasFloor ? tiers : [...tiers, { name: 'below all tiers', fromRpm: Number.NEGATIVE_INFINITY }]
}
