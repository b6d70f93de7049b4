import { type CeilingLimit, type Flag, flagSchema } from '../contract/reading.ts'
import type { RatedHit } from './rated-hit.ts'

const fromBest = flagSchema.options

/**
 * The flag that a figure carries: the worst of its hits', with the lowest ceiling of the hits that have
 * it. A clear figure has no limit to name.
 */
export function worstFlag(hits: readonly Pick<RatedHit, 'flag' | 'ceiling'>[]): {
  flag: Flag
  limit: CeilingLimit | null
} {
  const flag = fromBest[Math.max(...hits.map(hit => fromBest.indexOf(hit.flag)))] ?? 'clear'
  if (flag === 'clear') return { flag, limit: null }
  const ceilings = hits.flatMap(hit => (hit.flag === flag && hit.ceiling ? [hit.ceiling] : []))
  const lowest = ceilings.toSorted((a, b) => a.rpm - b.rpm)[0]
  return { flag, limit: lowest?.limit ?? null }
}
