export type StackedDot = { rpm: number; level: number }

/**
 * A dot plot: rates that would cover each other stand on one another. `apartRpm` is the width of a dot on
 * the scale. Rates in order.
 */
export function stacked(rpms: readonly number[], apartRpm: number): StackedDot[] {
  const dots: StackedDot[] = []
  let [from, level] = [Number.NEGATIVE_INFINITY, 0]
  for (const rpm of rpms) {
    if (rpm - from < apartRpm) level++
    else [from, level] = [rpm, 0]
    dots.push({ rpm: from, level })
  }
  return dots
}
