import { describe, expect, it } from 'vitest'
import { type CeilingFacts, ceilingsOf } from '../../../core/spin/ceiling.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { marksOf } from './truth.ts'

/** Expected figures: method.md, "The frame-rate ceiling", worked by hand. */
const plain: CeilingFacts = {
  fps: 240,
  symmetryOrder: 1,
  senseKnown: false,
  visiblePart: 1,
  exposureSeconds: null,
  counting: null,
}
const lowest = (facts: Partial<CeilingFacts>) => ceilingsOf({ ...plain, ...facts })[0]

describe('ceilings', () => {
  it.each([
    ['half a turn a frame', {}, 7200, 'sense'],
    ['a whole turn a frame with the sense known', { senseKnown: true }, 14400, 'sense'],
    ['half a repeat of a line', { symmetryOrder: 2 }, 3600, 'sense'],
    ['a mark that shows for 0.4 of a turn', { visiblePart: 0.4 }, 2880, 'seeing'],
    ['45° of smear in 1/250 s', { exposureSeconds: 1 / 250 }, 1875, 'smear'],
    ['a quarter repeat of smear, order 4', { exposureSeconds: 1 / 250, symmetryOrder: 4 }, 937.5, 'smear'],
    [
      'counted within 50 rpm over 24 frames',
      { counting: { halfWidthRpm: 50, frames: 24 } },
      1545.6,
      'counting',
    ],
  ] as const)('%s', (_, facts, rpm, limit) => {
    expect(lowest(facts)!.limit).toBe(limit)
    expect(lowest(facts)!.rpm).toBeCloseTo(rpm, 1)
  })
  it('all limits come lowest first', () => {
    const all = ceilingsOf({
      ...plain,
      visiblePart: 0.5,
      exposureSeconds: 1 / 500,
      counting: { halfWidthRpm: 300, frames: 30 },
    })
    expect(all.map(({ limit }) => limit)).toEqual(['seeing', 'smear', 'sense', 'counting'])
  })

  describe('of whole readings', () => {
    it('sense', () => {
      expect(readMarks(marksOf()).ceiling).toEqual({ rpm: 7200, limit: 'sense' })
    })
    it('seeing, where the mark hides behind the ball', () => {
      const reading = readMarks(marksOf({ tiltDeg: 80, frames: 40, rpm: 1500, clickPx: 0.5 }))
      expect(reading.ceiling!.limit).toBe('seeing')
    })
    it('smear', () => {
      expect(readMarks(marksOf({ capture: { exposureSeconds: 1 / 500 } })).ceiling).toEqual({
        rpm: 3750,
        limit: 'smear',
      })
    })
    it('counting, where the reviewer asks for a resolution', () => {
      const reading = readMarks({ ...marksOf(), wantedHalfWidthRpm: 60 })
      expect(reading.ceiling!.limit).toBe('counting')
      expect(reading.flag).toBe('ambiguous')
    })
    it('none of sense where uneven times tell the aliases apart', () => {
      const timeOf = (i: number) => (i + 0.23 * Math.sin(2.1 * i)) / 60
      const reading = readMarks(marksOf({ fps: 60, clickPx: 1, timeOf, writtenTime: t => t }))
      expect(reading.ceiling).toBeNull()
      expect(reading.flag).toBe('clear')
      expect(Math.abs(reading.rpm! - 2330)).toBeLessThan(5)
    })
  })
})
