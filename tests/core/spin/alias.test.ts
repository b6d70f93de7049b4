import { describe, expect, it } from 'vitest'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { marksOf } from './truth.ts'

const plausibleRates = (marks: Parameters<typeof readMarks>[0]) =>
  readMarks(marks)
    .candidates.filter(candidate => candidate.plausible)
    .map(({ rpm, sense }) => Math.round(sense === 'clockwise' ? rpm : -rpm))

describe('aliases', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'with even frames and order %i the candidates lie 60·f/m apart',
    symmetryOrder => {
      const marks = marksOf({
        kind: 'direction',
        frames: 40,
        rpm: 500,
        maxRpm: 15_000,
        marks: [{ id: 'star', symmetryOrder, offsetShare: 0.6, startDeg: 20 }],
      })
      const rates = plausibleRates(marks).toSorted((a, b) => a - b)
      expect(rates).toContain(500)
      rates.slice(1).forEach((rate, i) => {
        expect(Math.abs(rate - rates[i]! - 14_400 / symmetryOrder)).toBeLessThan(2)
      })
      expect(rates).toHaveLength(
        Math.floor((15_000 - 500) / (14_400 / symmetryOrder)) +
          Math.floor((15_000 + 500) / (14_400 / symmetryOrder)) +
          1,
      )
    },
  )
  it('all fit alike; the slowest comes first', () => {
    const { candidates } = readMarks(marksOf({ fps: 60, clickPx: 1 }))
    expect(candidates.slice(0, 3).map(({ rpm }) => Math.round(rpm / 10))).toEqual([127, 233, 487])
    for (const { support } of candidates) expect(support).toBe(1)
  })
  it('the sense of the shot leaves out the others', () => {
    expect(
      plausibleRates(marksOf({ fps: 60, clickPx: 1, sense: 'counter-clockwise' })).map(r =>
        Math.round(r / 10),
      ),
    ).toEqual([-127, -487])
  })
  it('a bound on spin leaves out the fast ones', () => {
    expect(
      plausibleRates(marksOf({ fps: 60, clickPx: 1, maxRpm: 2000 })).map(r => Math.round(r / 10)),
    ).toEqual([-127])
  })
  it('uneven times leave one', () => {
    const timeOf = (i: number) => (i + 0.23 * Math.sin(2.1 * i)) / 60
    const { candidates, flag } = readMarks(marksOf({ fps: 60, clickPx: 1, timeOf, writtenTime: t => t }))
    expect(candidates.map(({ rpm }) => Math.round(rpm / 10))).toEqual([233])
    expect(flag).toBe('clear')
  })
  it('uneven times of frames that were even, but for a tick, leave all', () => {
    const marks = marksOf({
      fps: 60,
      clickPx: 1,
      writtenTime: t => Math.round(t * 600) / 600,
      capture: { tickSeconds: 1 / 600 },
    })
    expect(plausibleRates(marks)).toHaveLength(3)
  })
  it('marked streaks of 28° in 1/500 s settle on 2330 rpm, and not on 1270', () => {
    const marks = marksOf({ fps: 60, maxRpm: 4000, clickPx: 0.5, capture: { exposureSeconds: 1 / 500 } })
    const arc = ((2330 * 6) / 500 / 180) * Math.PI
    for (const frame of marks.frames) {
      frame.seen = frame.seen.map(seen => {
        if (!('xPx' in seen)) return seen
        const { xPx, yPx, radiusPx } = frame.outline!
        const [bearing, ρ] = [Math.atan2(seen.yPx - yPx, seen.xPx - xPx), 0.6 * radiusPx]
        const end = (sign: number): [number, number] => [
          xPx + ρ * Math.cos(bearing + (sign * arc) / 2),
          yPx + ρ * Math.sin(bearing + (sign * arc) / 2),
        ]
        const [[fromXPx, fromYPx], [toXPx, toYPx]] = [end(-1), end(1)]
        return { ...seen, smear: { fromXPx, fromYPx, toXPx, toYPx } }
      })
    }
    const reading = readMarks(marks)
    expect(Math.round(reading.rpm! / 10)).toBe(233)
    expect(reading.flag).toBe('clear')
  })
  it.each([
    [60, 2330, 1 / 250, 1270],
    [60, 3400, 1 / 500, 200],
    [120, 4600, 1 / 1000, 2600],
  ])(
    'at %i fps smears clicked in their middles do not rule out %i rpm, exposed for %d s: its alias %i is not clear',
    (fps, rpm, exposureSeconds, alias) => {
      // By arithmetic, 60·fps − rpm.
      const marks = marksOf({
        fps,
        rpm,
        frames: 30,
        clickPx: 0.5,
        tiltDeg: 35,
        radiusPx: 60,
        capture: { exposureSeconds },
      })
      const { candidates, flag } = readMarks(marks)
      const supportOf = (rate: number) => candidates.find(one => Math.abs(one.rpm - rate) < 5)?.support
      expect(supportOf(rpm)).toBeGreaterThan(0.1)
      expect(supportOf(alias)).toBeGreaterThan(0.1)
      expect(flag).toBe('ambiguous')
    },
  )
  it('two marks of orders 2 and 3 together repeat only once a turn', () => {
    const marks = marksOf({
      kind: 'direction',
      frames: 30,
      clickPx: 0.5,
      rpm: 1000,
      maxRpm: 14_000,
      marks: [
        { id: 'line', symmetryOrder: 2, offsetShare: 0.6, startDeg: 0 },
        { id: 'star', symmetryOrder: 3, offsetShare: 0.6, startDeg: 40 },
      ],
    })
    const rates = new Set(plausibleRates(marks).map(rate => Math.round(rate / 100)))
    expect([...rates].toSorted((a, b) => b - a)).toEqual([10, -134])
  })
  it.each([0, 35])(
    '33 1/3 rpm at 10 fps, tilted %i°: of more equal rates than are kept, the slowest is not lost',
    tiltDeg => {
      const marks = marksOf({ fps: 10, rpm: 100 / 3, tiltDeg, clickPx: 1 })
      const reading = readMarks(marks)
      expect(Math.abs(reading.rpm! - 100 / 3)).toBeLessThan(4 * reading.standardUncertaintyRpm!)
      expect(reading.flag).toBe('ambiguous')
    },
  )
})
