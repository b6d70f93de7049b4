import { describe, expect, it } from 'vitest'
import { correctDrift, driftOf } from '../../../core/ratings/drift.ts'
import { sharedUncertaintyOf } from '../../../core/ratings/known-mean.ts'
import { paddleFigure } from '../../../core/ratings/paddle-figure.ts'
import type { RatedHit } from '../../../core/ratings/rated-hit.ts'
import { spinParameter, spinPerSpeed } from '../../../core/ratings/spin-per-speed.ts'
import { chanceOf } from '../../bench/simulate/random.ts'
import { hitsOf } from './sample-hits.ts'

describe('spin against the ball’s speed', () => {
  const spin = { rpm: 2000, standardUncertaintyRpm: 40 }
  const flight = { speedMetresPerSecond: 20, standardUncertaintySpeed: 0.3 }

  it('is 100 rpm per m/s for 2000 rpm at 20 m/s; 2 % and 1.5 % make 2.5 % (JCGM 100:2008, 5.1.6)', () => {
    expect(spinPerSpeed(spin, flight)).toEqual({ value: 100, standardUncertainty: expect.closeTo(2.5, 9) })
  })
  it('as spin parameter is r·ω/v: 0.037 m at 2000 rpm moves 7.749 m/s, over 20 m/s', () => {
    const parameter = spinParameter(spin, flight, 0.037)!
    expect(parameter.value).toBeCloseTo((0.037 * 2000 * 2 * Math.PI) / 60 / 20, 12)
    expect(parameter.value).toBeCloseTo(0.3875, 4)
    expect(parameter.standardUncertainty! / parameter.value).toBeCloseTo(0.025, 9)
  })
  it('does not exist for a ball that stands still, and has no uncertainty where the speed has none', () => {
    expect(spinPerSpeed(spin, { ...flight, speedMetresPerSecond: 0 })).toBeNull()
    expect(spinParameter(spin, { ...flight, speedMetresPerSecond: 0 }, 0.037)).toBeNull()
    expect(spinPerSpeed(spin, { ...flight, standardUncertaintySpeed: null })!.standardUncertainty).toBeNull()
  })
})

const { normal } = chanceOf(21)
const session = (name: string, factor: number, truth = 2000, hits = 8): RatedHit[] =>
  hitsOf(
    Array.from({ length: hits }, () => (truth + normal(20)) * factor),
    { session: name, standardUncertaintyRpm: 5, sharedRelativeUncertainty: 0.001 },
  )

describe('drift by a reference paddle', () => {
  const drift = driftOf([...session('April', 0.95), ...session('May', 1), ...session('June', 1.05)])!

  it('is found with its factors, each within three of its uncertainties', () => {
    expect(drift.isSeen).toBe(true)
    for (const { session, factor: found, relativeUncertainty } of drift.sessions) {
      const factor = { April: 0.95, May: 1, June: 1.05 }[session]!
      expect(Math.abs(found - factor)).toBeLessThan(3 * relativeUncertainty)
      expect(relativeUncertainty).toBeLessThan(0.01)
    }
    expect(drift.betweenSessionsRelative).toBeGreaterThan(0.03)
  })
  it('is not seen where sessions are alike', () => {
    expect(driftOf([...session('April', 1), ...session('May', 1), ...session('June', 1)])!.isSeen).toBe(false)
  })
  it('takes two sessions of two rated hits', () => {
    expect(driftOf(session('May', 1))).toBeNull()
    expect(driftOf([...session('April', 1), ...session('May', 1, 2000, 1)])).toBeNull()
  })

  it('corrected for, leaves hits of drifted sessions together, at the cost of its own uncertainty', () => {
    const hits = [...session('April', 0.95, 2300), ...session('June', 1.05, 2300)]
    const before = paddleFigure(hits).figure!
    const after = paddleFigure(correctDrift(hits, drift)!).figure!
    expect(after.betweenHitSdRpm).toBeLessThan(before.betweenHitSdRpm! / 2)
    expect(after.band.lowRpm).toBeLessThan(2300)
    expect(after.band.highRpm).toBeGreaterThan(2300)
    expect(sharedUncertaintyOf(after)).toBeGreaterThan(sharedUncertaintyOf(before))
    expect(after.shared.map(part => part.source)).toEqual([
      'camera the reference paddle',
      'session April',
      'session June',
    ])
  })
  it('cannot be corrected in a session without the reference', () => {
    expect(correctDrift(session('July', 1), drift)).toBeNull()
  })
})
