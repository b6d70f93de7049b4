import type { Metric } from '../contract/metrics.ts'

/** What is known of a paddle in a set-up, by name: the set-up's own values, else the paddle's. */
export function metricsFor(metrics: readonly Metric[], paddleId: string, setUpId: string): Metric[] {
  const known = new Map<string, Metric>()
  for (const metric of metrics) {
    if (metric.paddleId !== paddleId || (metric.setUpId !== null && metric.setUpId !== setUpId)) continue
    const key = metric.name.toLowerCase()
    if (metric.setUpId !== null || !known.has(key)) known.set(key, metric)
  }
  return [...known.values()].toSorted((a, b) => (a.name < b.name ? -1 : 1))
}
