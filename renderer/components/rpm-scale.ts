/** The rpm scale that all bars of a screen share: its ends and the step of its lines. */
export type RpmScale = { fromRpm: number; toRpm: number; stepRpm: number }

type Spread = { lowRpm: number; highRpm: number }

/** The scale that holds all these bands, its ends on whole steps. Without a band it runs from 0 to 3000. */
export function rpmScaleOf(bands: Spread[]): RpmScale {
  let low = Number.POSITIVE_INFINITY
  let high = 0
  for (const { lowRpm, highRpm } of bands) {
    low = Math.min(low, lowRpm)
    high = Math.max(high, highRpm)
  }
  if (!(low <= high)) return { fromRpm: 0, toRpm: 3000, stepRpm: 500 }
  low = Math.max(0, low)
  const stepRpm = [100, 250, 500, 1000, 2000, 5000].find(step => (high - low) / step <= 5) ?? 10_000
  const fromRpm = Math.floor(low / stepRpm) * stepRpm
  return { fromRpm, toRpm: Math.max(Math.ceil(high / stepRpm) * stepRpm, fromRpm + stepRpm), stepRpm }
}

/** Where a rate lies on the scale, in percent from its left end; beyond the ends it stays at them. */
export const percentOn = (scale: RpmScale, rpm: number): number =>
  Math.min(100, Math.max(0, (100 * (rpm - scale.fromRpm)) / (scale.toRpm - scale.fromRpm)))

/** The rates of the scale's lines. */
export const linesOf = ({ fromRpm, toRpm, stepRpm }: RpmScale): number[] =>
  Array.from({ length: Math.round((toRpm - fromRpm) / stepRpm) + 1 }, (_, index) => fromRpm + index * stepRpm)
