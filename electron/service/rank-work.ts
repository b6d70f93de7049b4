import { setImmediate as breathe } from 'node:timers/promises'
import type { CallContext } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { SetUpRank } from '../../core/contract/standings.ts'
import { seededRandom } from '../../core/numerics/seeded-random.ts'
import { type Entrant, rankBandsOf } from '../../core/ratings/standings.ts'

const sliceMilliseconds = 12

/** The same figures give the same rank bands, whenever they are asked for. */
export const rankRandom = () => seededRandom(1)

/** Draws the rank bands between other calls: the host answers those meanwhile. */
export async function drawRanks(
  entrants: readonly Entrant[],
  { signal, progress }: Pick<CallContext, 'signal' | 'progress'>,
): Promise<SetUpRank[]> {
  const slices = rankBandsOf(entrants, rankRandom())
  for (;;) {
    const until = performance.now() + sliceMilliseconds
    let step = slices.next()
    while (!step.done && performance.now() < until) step = slices.next()
    if (step.done) return [...step.value].map(([setUpId, band]) => ({ setUpId, ...band }))
    progress({ what: 'rank bands', done: Math.round(100 * step.value), total: 100 })
    await breathe()
    if (signal.aborted) throw new WhorlError('cancelled', { what: 'The rank bands' })
  }
}
