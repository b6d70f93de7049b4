import type { Band } from '../contract/reading.ts'
import { studentT } from '../numerics/student-t.ts'
import { bandLevel } from '../spin/band.ts'
import { type KnownMean, sharedUncertaintyOf } from './known-mean.ts'

const most = 10_000

/** What of a figure says how it would narrow. */
type Narrowing = Pick<KnownMean, 'shared'> & {
  hits: number
  band: Band
  own: { standardUncertaintyRpm: number }
}

export type MoreHits =
  | { hits: number; reason: null }
  | { hits: null; reason: 'one-hit' | 'shared-part' | 'too-many' }

/**
 * How many more hits like those so far make the band's half-width as small as wanted. None will where the
 * shared part alone is wider; a single hit cannot tell.
 *
 * The own part falls as 1/√n, its factor is Student's t for n − 1 degrees of freedom; the shared part stays.
 */
export function moreHitsFor(figure: Narrowing, wantedHalfWidthRpm: number): MoreHits {
  const n = figure.hits
  if ((figure.band.highRpm - figure.band.lowRpm) / 2 <= wantedHalfWidthRpm) return { hits: 0, reason: null }
  if (n === 1) return { hits: null, reason: 'one-hit' }
  const upper = (1 + bandLevel) / 2
  const stays = studentT(upper, Number.POSITIVE_INFINITY) * sharedUncertaintyOf(figure)
  if (stays >= wantedHalfWidthRpm) return { hits: null, reason: 'shared-part' }
  const ofOne = figure.own.standardUncertaintyRpm * Math.sqrt(n)
  for (let count = n + 1; count <= most; count++) {
    const own = (studentT(upper, count - 1) * ofOne) / Math.sqrt(count)
    if (Math.hypot(own, stays) <= wantedHalfWidthRpm) return { hits: count - n, reason: null }
  }
  return { hits: null, reason: 'too-many' }
}
