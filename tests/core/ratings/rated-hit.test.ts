import { expect, it } from 'vitest'
import type { HitRow } from '../../../core/contract/workspace.ts'
import { ratedHitOf } from '../../../core/ratings/rated-hit.ts'
import { sampleReading } from '../../electron/store/sample-reading.ts'

const line = (standardUncertaintyRpm: number, sharedByHits: boolean) => ({
  source: 'x',
  standardUncertaintyRpm,
  kind: 'random' as const,
  sharedByHits,
})
const row: HitRow = {
  hitId: 'h',
  clipId: 'c',
  sessionId: 's',
  clipName: 'a.mp4',
  day: '2026-05-31',
  setUpId: 'u',
  paddle: 'Heron 14',
  setUp: 'stock',
  window: { fromFrame: 0, toFrame: 20 },
  verdict: { state: 'accepted', reason: '' },
  reading: sampleReading({
    rpm: 2000,
    budget: [line(3, false), line(4, false), line(6, true), line(8, true)],
  }),
  methodVersion: '1',
  stale: false,
  notes: '',
}

it('a row’s budget is split into its own part and the part that hits share, each a root sum of squares', () => {
  expect(ratedHitOf(row, null, 'Kestrel')).toMatchObject({
    id: 'h',
    rpm: 2000,
    standardUncertaintyRpm: 5,
    sharedRelativeUncertainty: 10 / 2000,
    effectiveDof: 10,
    camera: 'Kestrel',
    flag: 'clear',
    settledReason: null,
  })
})

it('a row without a reading has no rate and is not clear', () => {
  expect(ratedHitOf({ ...row, reading: null }, null, 'Kestrel')).toMatchObject({
    rpm: null,
    standardUncertaintyRpm: null,
    flag: 'too-few-frames',
  })
})

it('a choice between candidates comes with its reason', () => {
  const settled = { rpm: 2000, sense: 'clockwise' as const, reason: 'a topspin drive' }
  expect(ratedHitOf(row, settled, 'Kestrel').settledReason).toBe('a topspin drive')
})
