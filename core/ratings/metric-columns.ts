import type { Metric } from '../contract/metrics.ts'
import type { PercentileDefinition } from '../contract/rating-rules.ts'
import type { MetricColumn, PlacedMetric } from '../contract/standings.ts'
import { percentiles } from './percentile.ts'

export type MetricColumns = {
  columns: MetricColumn[]
  /** The values of a paddle in a set-up, one a column: the set-up's own, else the paddle's. */
  of: (paddleId: string, setUpId: string) => (PlacedMetric | null)[]
}

/**
 * Values measured elsewhere as columns, by name whatever its case. Each number gets its percentile among all
 * numbers of its column; a value that holds for a paddle however it is dressed counts once.
 */
export function metricColumns(metrics: readonly Metric[], definition: PercentileDefinition): MetricColumns {
  const byName = new Map<string, Metric[]>()
  for (const metric of metrics) {
    const key = metric.name.toLowerCase()
    const known = byName.get(key)
    if (known) known.push(metric)
    else byName.set(key, [metric])
  }
  const groups = [...byName.values()].toSorted((a, b) => (a[0]!.name < b[0]!.name ? -1 : 1))
  const placed = groups.map(group => placedBySubject(group, definition))
  return {
    columns: groups.map(([first]) => ({ name: first!.name, unit: first!.unit })),
    of: (paddleId, setUpId) =>
      placed.map(
        column => column.get(subjectOf(paddleId, setUpId)) ?? column.get(subjectOf(paddleId, null)) ?? null,
      ),
  }
}

const subjectOf = (paddleId: string, setUpId: string | null) => setUpId ?? `paddle ${paddleId}`

function placedBySubject(group: readonly Metric[], definition: PercentileDefinition) {
  const numbers = group.flatMap(({ value }) => (typeof value === 'number' ? [value] : []))
  const places = percentiles(numbers, definition)
  let next = 0
  return new Map(
    group.map(({ paddleId, setUpId, value }): [string, PlacedMetric] => [
      subjectOf(paddleId, setUpId),
      { value, percentile: typeof value === 'number' ? places[next++]! : null },
    ]),
  )
}
