import type { RatedHit } from '../../../core/ratings/rated-hit.ts'

let count = 0
/** An accepted, clear hit, with what a test wants to differ. */
export const ratedHit = (changes: Partial<RatedHit> = {}): RatedHit => ({
  id: `hit ${++count}`,
  rpm: 2300,
  standardUncertaintyRpm: 10,
  effectiveDof: 20,
  sharedRelativeUncertainty: 0,
  camera: 'Kestrel',
  session: 'May',
  day: '2026-05-31',
  driftRelativeUncertainty: 0,
  flag: 'clear',
  ceiling: { rpm: 7200, limit: 'sense' },
  settledReason: null,
  verdict: { state: 'accepted', reason: '' },
  stale: false,
  ...changes,
})

export const hitsOf = (rpms: readonly number[], changes: Partial<RatedHit> = {}) =>
  rpms.map(rpm => ratedHit({ rpm, ...changes }))
