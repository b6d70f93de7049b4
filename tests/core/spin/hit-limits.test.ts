import { describe, expect, it } from 'vitest'
import { ceilingOf } from '../../../core/spin/ceiling.ts'
import { countOf } from '../../../core/spin/count.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { radPerSecondOfRpm } from '../../../core/units/rate.ts'
import { estimateAt, observationsWith } from './facts.ts'

describe('the ceiling of a hit', () => {
  const seen = (change: Partial<Observations>) => {
    const o = observationsWith(change)
    return ceilingOf(estimateAt(2330, o), o)
  }
  const marks = [
    { id: 'line', symmetryOrder: 2 },
    { id: 'logo', symmetryOrder: 1 },
  ]
  const of = (mark: number, frames: number[]) =>
    frames.map(frame => ({ kind: 'direction' as const, frame, mark, bearingRad: 0 }))
  const all = Array.from({ length: 24 }, (_, i) => i)
  it('is set by the mark that repeats least, of those that were seen', () => {
    expect(seen({ marks, sightings: [...of(0, all), ...of(1, all)] })).toEqual({ rpm: 7200, limit: 'sense' })
    expect(seen({ marks, sightings: of(0, all) })).toEqual({ rpm: 3600, limit: 'sense' })
  })
  it('is set by the mark that shows most', () => {
    const hidden = all.slice(6).map(frame => ({ frame, mark: 0 }))
    const half = all.slice(12).map(frame => ({ frame, mark: 1 }))
    // A quarter of the frames alone: 60·240·(6/24)/2 = 1800 rpm; beside one that shows in half, 3600.
    expect(seen({ marks, sightings: of(0, all.slice(0, 6)), hidden })).toEqual({ rpm: 1800, limit: 'seeing' })
    expect(
      seen({
        marks,
        sightings: [...of(0, all.slice(0, 6)), ...of(1, all.slice(0, 12))],
        hidden: [...hidden, ...half],
      }),
    ).toEqual({ rpm: 3600, limit: 'seeing' })
  })
  it('by counting goes with the frames between the first mark and the last', () => {
    // 50 rpm over 20 frames: 50·20/0.77639.
    const found = seen({ sightings: of(0, all.slice(2, 23)), wantedHalfWidthRpm: 50 })
    expect(found!.limit).toBe('counting')
    expect(found!.rpm).toBeCloseTo(1288, 0)
  })
  it('of a known sense is a whole repeat', () => {
    const plausible = { maxRateRadPerSecond: 1e4, sense: 'clockwise' as const }
    expect(seen({ plausible })!.rpm).toBe(14400)
  })
})

describe('what counting would have said', () => {
  const counted = (rpm: number, first = 0, last = 23) => {
    const o = observationsWith()
    const sightings = o.sightings.filter(({ frame }) => frame >= first && frame <= last)
    return countOf(radPerSecondOfRpm(rpm), { ...o, sightings })
  }
  it('is as many whole turns as lie between the first mark and the last, to half a frame', () => {
    // 2400 rpm at 240 fps: 6 frames a turn. 24 frames hold 23 gaps: with half a frame 3.9 turns; 17 gaps hold 2.9.
    expect(counted(2400)).toMatchObject({ turns: 3, frames: 18, rpm: 2400 })
    expect(counted(-2400)).toMatchObject({ turns: 3, frames: 18, rpm: 2400 })
    expect(counted(2400, 2, 19)).toMatchObject({ turns: 2, frames: 12 })
    // 14400/5.5 rpm: 5.5 frames a turn, so that half a frame makes 22 gaps four turns.
    expect(counted(14_400 / 5.5, 1, 23)).toMatchObject({ turns: 4, frames: 22 })
  })
  it('is nothing of less than one turn, nor of a ball that stands still', () => {
    // One turn takes 23 gaps at 626 rpm, 23.5 at 612.8.
    expect(counted(626)).toMatchObject({ turns: 1, frames: 23 })
    expect(counted(612)).toBeNull()
    expect(counted(0)).toBeNull()
  })
  it('is nothing where a turn is less than half a frame', () => {
    expect(counted(40_000, 0, 0)).toBeNull()
  })
})
