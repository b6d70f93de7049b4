import { expect, it } from 'vitest'
import type { Metric } from '../../../core/contract/metrics.ts'
import { metricsFor } from '../../../core/ratings/metrics-for.ts'

const metric = (name: string, value: number, setUpId: string | null = null, paddleId = 'heron'): Metric => ({
  paddleId,
  setUpId,
  name,
  unit: 'g',
  value,
  source: 'weights.csv',
  importedAt: '2026-05-31T09:00:00Z',
})
const known = (metrics: Metric[], setUpId = 'taped') =>
  metricsFor(metrics, 'heron', setUpId).map(({ name, value }) => [name, value])

it('what is known of a paddle holds however it is dressed, in order of its name', () => {
  expect(known([metric('Weight', 230), metric('Balance', 240)])).toEqual([
    ['Balance', 240],
    ['Weight', 230],
  ])
})
it('what is known of the set-up goes before it, whichever came first, by name without regard to case', () => {
  const [own, all] = [metric('weight', 236, 'taped'), metric('Weight', 230)]
  expect(known([own, all])).toEqual([['weight', 236]])
  expect(known([all, own])).toEqual([['weight', 236]])
})
it('another paddle’s and another set-up’s values are none of its', () => {
  expect(known([metric('Weight', 1, null, 'kite'), metric('Weight', 2, 'stock')])).toEqual([])
})
