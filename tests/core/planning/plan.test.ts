import { describe, expect, it } from 'vitest'
import { planSchema } from '../../../core/contract/plan.ts'
import { bandCurves } from '../../../core/planning/curves.ts'
import { drawnBall } from '../../../core/planning/drawn-ball.ts'
import { expectedReading, halfWidthOf } from '../../../core/planning/expected-reading.ts'
import { hitsForMean } from '../../../core/planning/hits-for-mean.ts'
import { inViewOf, markedFramesOf } from '../../../core/planning/in-view.ts'
import { planOf } from '../../../core/planning/plan.ts'
import { visiblePartOf } from '../../../core/planning/planned-mark.ts'
import { stopsBetween, stopsInWords } from '../../../core/planning/stops.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { benchSetUps, phoneBeside } from '../../bench/plan/set-ups.ts'
import { simulateSetUp } from '../../bench/plan/simulate-set-up.ts'

describe('the band to expect against simulated hits of the set-up', () => {
  // All set-ups of the bench stand within 15 %; here a few of them, and fewer hits.
  it.each(['phone at 240, one dot', 'axis 30° aside', '120 fps'])('%s: within 15 %', name => {
    const setUp = benchSetUps[name]!
    const widths = Array.from(
      { length: 25 },
      (_, i) => halfWidthOf(readMarks(simulateSetUp(setUp, 1000 + i).document)) ?? Number.POSITIVE_INFINITY,
    ).sort((a, b) => a - b)
    const ratio = halfWidthOf(expectedReading(setUp))! / widths[12]!
    expect(ratio).toBeGreaterThan(0.85)
    expect(ratio).toBeLessThan(1.15)
  })
})

describe('what the picture holds', () => {
  it('a ball far away is as large as focal length · size / distance', () => {
    const { ballDiameterPx } = inViewOf({ ...phoneBeside, distanceMetres: 100 })
    expect(ballDiameterPx).toBeCloseTo((1400 * 0.0742) / 100, 4)
  })

  it('the smear is 6·rpm·exposure degrees, as method has it: 28° for 2330 rpm and 1/500 s', () => {
    expect(inViewOf({ ...phoneBeside, rpm: 2330, exposureSeconds: 1 / 500 }).smearDeg).toBeCloseTo(27.96, 6)
  })

  it('the flight smears the ball by its way during the exposure', () => {
    // 18 m/s · 1/2000 s = 9 mm, at 1400 px / 2.5 m.
    expect(inViewOf(phoneBeside).flightSmearPx).toBeCloseTo(0.009 * 560, 6)
  })

  it('the whole ball is in view as often as its centre has frames between the edges', () => {
    // (1920 − 41.56) px of room, 18/240 m · 560 px/m = 42 px a frame: 44 steps.
    expect(inViewOf(phoneBeside).framesInView).toBe(45)
  })

  it('a ball larger than the picture is in no frame', () => {
    expect(inViewOf({ ...phoneBeside, distanceMetres: 0.09 }).framesInView).toBe(0)
  })

  it('where more frames show the ball than are marked, they are spread, never beyond a quarter turn', () => {
    expect(markedFramesOf({ ...phoneBeside, captureFps: 960 })).toEqual({ count: 36, every: 5 })
    expect(markedFramesOf({ ...phoneBeside, rpm: 6000, mostFrames: 5 }).every).toBe(1)
  })
})

describe('the part of a turn for which a mark shows', () => {
  it.each([
    // On an axis that faces the camera a mark in front of the rim never hides.
    { axisTiltDeg: 0, markFromAxisDeg: 50, part: 1 },
    { axisTiltDeg: 0, markFromAxisDeg: 120, part: 0 },
    // On the equator of an axis across the line of sight: 2·acos(0.15)/360°.
    { axisTiltDeg: 90, markFromAxisDeg: 90, part: Math.acos(0.15) / Math.PI },
  ])('axis $axisTiltDeg°, mark $markFromAxisDeg°', ({ part, ...angles }) => {
    expect(visiblePartOf({ ...phoneBeside, ...angles })).toBeCloseTo(part, 9)
  })
})

describe('a plan', () => {
  it('keeps to its schema and names the ceilings lowest first', () => {
    const plan = planSchema.parse(planOf(phoneBeside))
    const rates = plan.ceilings.map(ceiling => ceiling.rpm)
    expect(rates).toEqual(rates.toSorted((a, b) => a - b))
    // Half a turn a frame at 240 fps; 45° while the shutter is open for 1/2000 s.
    expect(plan.ceilings.find(one => one.limit === 'sense')!.rpm).toBe(7200)
    expect(plan.ceilings.find(one => one.limit === 'smear')!.rpm).toBe(15_000)
    expect(plan.flag).toBe('clear')
  })

  it('a slow shutter: says so, and that a shorter exposure helps most, with its smears and its stops', () => {
    const plan = planOf({ ...phoneBeside, rpm: 2330, exposureSeconds: 1 / 500 })
    // The rotation's own smear, 28°, is below the ceiling's 45°; what is lost is the outline.
    expect(plan.limits).toContain('smears the ball')
    expect(plan.advice[0]).toMatch(/1\/2000.s instead of 1\/500.s takes the smear from 28° to 7.0°/)
    expect(plan.advice[0]).toContain('2 stops more light')
  })

  it('a spin past half a turn a frame: the ceiling is named, and knowing the sense mends it', () => {
    const plan = planOf({ ...phoneBeside, captureFps: 60, rpm: 2330, exposureSeconds: 1 / 2000 })
    expect(plan.flag).toBe('ambiguous')
    expect(plan.limits).toContain('The ceiling is 1800 rpm')
    expect(plan.advice[0]).toMatch(/^Noting which way each shot spins.*then clear/)
  })

  it('more spread between hits asks for more hits of a paddle', () => {
    const hits = (betweenHitSdRpm: number) =>
      hitsForMean(expectedReading(phoneBeside, 1), { ...phoneBeside, betweenHitSdRpm }).hits!
    expect(hits(120)).toBeGreaterThan(hits(40))
    // Normal-law part of it: n = (t·s/w)², t for n − 1: s = 120, w = 50 gives 25 hits (t 2.064: 49.5).
    expect(hits(120)).toBe(25)
  })

  it('a curve ends at the greatest spin and names its ceiling', () => {
    const first = [...take(bandCurves({ ...phoneBeside, rpm: 500 }), 10)].at(-1)!
    expect(first).toMatchObject({ captureFps: 240, ceilingRpm: 7200 })
    expect(first.points.at(-1)!.rpm).toBe(3000)
  })
})

function* take<T>(from: Iterable<T>, count: number): Generator<T> {
  for (const each of from) {
    yield each
    if (--count === 0) return
  }
}

describe('stops of light', () => {
  // One stop is a factor of two in exposure time: the series 1/500, 1/1000, 1/2000 of shutter dials.
  it.each([
    [1 / 500, 1 / 2000, 2, '2 stops more light'],
    [1 / 1000, 1 / 500, -1, '1 stop less light'],
    [1 / 500, 1 / 500, 0, 'no more light'],
  ])('%d s to %d s', (from, to, stops, words) => {
    expect(stopsBetween(from, to)).toBeCloseTo(stops, 12)
    expect(stopsInWords(stops)).toBe(words)
  })
})

describe('the ball as drawn', () => {
  it('turns with the spin: the dark of the dot stands a frame’s turn further on', () => {
    const setUp = { ...phoneBeside, exposureSeconds: 1 / 100_000, rpm: 3600, speedMetresPerSecond: 0.1 }
    const bearing = (frame: number) => {
      const { widthPx, heightPx, luma } = drawnBall(setUp, frame)
      let [x, y] = [0, 0]
      luma.forEach((value, i) => {
        if (value > 60) return
        x += (i % widthPx) + 0.5 - widthPx / 2
        y += Math.floor(i / widthPx) + 0.5 - heightPx / 2
      })
      return (Math.atan2(y, x) * 180) / Math.PI
    }
    // 3600 rpm at 240 fps: 90° a frame, clockwise on the screen.
    expect((bearing(1) - bearing(0) + 360) % 360).toBeCloseTo(90, 0)
  })
})
