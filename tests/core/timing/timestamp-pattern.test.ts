import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { timestampPattern } from '../../../core/timing/timestamp-pattern.ts'

/** Times of frames filmed evenly, some dropped, as a container rounds them to its ticks. */
function rounded(
  frames: number,
  fps: number,
  ticksPerSecond: number,
  { dropped = [] as number[], round = Math.round, start = 0 } = {},
): number[] {
  const kept = Array.from({ length: frames }, (_, i) => i).filter(i => !dropped.includes(i))
  return kept.map(i => round(start + (i / fps) * ticksPerSecond) / ticksPerSecond)
}

describe('an even clip', () => {
  test('at 240 fps and 1/600 s alternates 2 and 3 ticks, and is even with that tick', () => {
    const times = rounded(60, 240, 600)
    const steps = new Set(times.slice(1).map((t, i) => Math.round((t - times[i]!) * 600)))
    expect(steps).toEqual(new Set([2, 3]))
    expect(timestampPattern(times, 1 / 600)).toEqual({
      tickSeconds: expect.closeTo(1 / 600, 12),
      fps: 240,
      even: true,
      gaps: [],
    })
  })

  test('copied into a finer time base keeps the tick it was rounded to', () => {
    const { tickSeconds, even, fps } = timestampPattern(rounded(60, 240, 600), 1 / 90_000)
    expect([tickSeconds, even, fps]).toEqual([expect.closeTo(1 / 600, 9), true, 240])
  })

  test('whose steps are all alike shows no rounding coarser than its time base', () => {
    expect(timestampPattern(rounded(60, 240, 15_360), 1 / 15_360).tickSeconds).toBeCloseTo(1 / 15_360, 12)
  })

  test('in milliseconds, as Matroska has them', () => {
    const { tickSeconds, even, fps } = timestampPattern(rounded(60, 240, 1000), 1 / 1000)
    expect([tickSeconds, even, fps]).toEqual([expect.closeTo(0.001, 12), true, 240])
  })

  // Television's rates, SMPTE ST 12-1: 24, 30, 60 and 120 over 1.001.
  test.each([24, 30, 60, 120, 240])('at %d · 1000/1001 fps is told from the whole rate', whole => {
    const fps = (whole * 1000) / 1001
    const ticksPerSecond = whole * 1000
    expect(timestampPattern(rounded(240, fps, ticksPerSecond), 1 / ticksPerSecond).fps).toBeCloseTo(fps, 9)
  })

  test('keeps its evenness and its gaps for every rate, tick, rounding and set of dropped frames', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(24, 30, 50, 60, 100, 119.88, 120, 239.76, 240, 480, 960),
        fc.constantFrom(600, 1000, 12_800, 15_360, 30_000, 90_000, 1_000_000),
        fc.constantFrom(Math.round, Math.floor, Math.ceil),
        fc.uniqueArray(fc.integer({ min: 1, max: 58 }), { maxLength: 12 }),
        fc.integer({ min: 0, max: 10_000 }).map(n => n * 0.137),
        (fps, ticksPerSecond, round, dropped, start) => {
          // Below two ticks a frame, rounding hides what a frame is.
          fc.pre(ticksPerSecond / fps >= 2)
          const pattern = timestampPattern(
            rounded(60, fps, ticksPerSecond, { dropped, round, start }),
            1 / ticksPerSecond,
          )
          const missing = pattern.gaps.reduce((sum, gap) => sum + gap.missing, 0)
          expect(pattern.even).toBe(true)
          expect(missing).toBe(dropped.length)
          expect(pattern.fps! / fps).toBeCloseTo(1, 2)
        },
      ),
      { seed: 5, numRuns: 300 },
    )
  })
})

test.each([24, 30, 60, 120, 240])(
  'of three frames at %d fps, rounded coarsely, the nearest usual rate is taken',
  fps => {
    expect(timestampPattern(rounded(3, fps, 600), 1 / 600).fps).toBe(fps)
  },
)

test('a rate of its own kind stays what it is', () => {
  expect(timestampPattern(rounded(60, 83.7, 90_000), 1 / 90_000).fps).toBeCloseTo(83.7, 2)
})

describe('dropped frames', () => {
  test('are gaps after the frame before them, with their number', () => {
    const { gaps, even } = timestampPattern(rounded(60, 240, 600, { dropped: [7, 20, 21, 22] }), 1 / 600)
    expect(gaps).toEqual([
      { afterFrame: 6, missing: 1 },
      { afterFrame: 18, missing: 3 },
    ])
    expect(even).toBe(true)
  })
})

describe('an uneven clip', () => {
  test('whose rate changes half-way is not even', () => {
    const times = [...rounded(30, 30, 90_000), ...rounded(30, 24, 90_000).map(t => t + 1)]
    expect(timestampPattern(times, 1 / 90_000).even).toBe(false)
  })

  test('that jitters by a fifth of a frame is not even, and has no gaps', () => {
    const times = Array.from({ length: 60 }, (_, i) => (i + 0.2 * Math.sin(i * i)) / 240)
    const { even, gaps } = timestampPattern(times, 1 / 90_000)
    expect([even, gaps]).toEqual([false, []])
  })

  test('that jitters by less than a hundredth of a frame counts as even', () => {
    const times = Array.from({ length: 60 }, (_, i) => (i + 0.008 * Math.sin(i * i)) / 240)
    expect(timestampPattern(times, 1 / 1_000_000).even).toBe(true)
  })
})

test.each([[[]], [[0.5]], [[1, 1]]])('of %j nothing can be said', times => {
  expect(timestampPattern(times, 1 / 600)).toEqual({ tickSeconds: null, fps: null, even: true, gaps: [] })
})
