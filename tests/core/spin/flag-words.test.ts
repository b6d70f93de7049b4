import { describe, expect, it } from 'vitest'
import type { Estimate } from '../../../core/spin/estimate.ts'
import { flagOf } from '../../../core/spin/flag.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { radPerSecondOfRpm } from '../../../core/units/rate.ts'
import { candidate, estimateAt, observationsWith } from './facts.ts'

const wide = { rpm: 7200, limit: 'sense' } as const
/** The flag of 2330 rpm ± 20 at 240 fps, 58° a frame, with all else as said. */
function flagged(
  change: Partial<Estimate> = {},
  seen: Partial<Observations> = {},
  { rpm = 2330, ceiling = wide as Parameters<typeof flagOf>[2] } = {},
) {
  const o = observationsWith(seen)
  const band = { lowRpm: Math.abs(rpm) - 20, highRpm: Math.abs(rpm) + 20, level: 0.95 }
  return flagOf(estimateAt(rpm, o, change), band, ceiling, o)
}
const scatter = (px: number, redundancy = 22): Partial<Estimate> => ({
  scatter: { px, from: 'residuals', degreesOfFreedom: redundancy, redundancy },
})

it('nothing against it: clear, without a word', () => {
  expect(flagged()).toEqual({ flag: 'clear', reasons: [] })
  expect(flagged({}, {}, { ceiling: null })).toEqual({ flag: 'clear', reasons: [] })
})

describe('other rates that fit', () => {
  const candidates = (...others: Estimate['candidates']) => ({ candidates: [candidate(2330), ...others] })
  it('inside the band, as of a mirrored axis, are no others; either edge belongs to it', () => {
    const within = [2310, 2350, 2335].map(rpm => candidate(rpm))
    expect(flagged(candidates(...within)).flag).toBe('clear')
    expect(flagged(candidates(candidate(2351))).flag).toBe('ambiguous')
    expect(flagged(candidates(candidate(2309))).flag).toBe('ambiguous')
  })
  it('the other way are others, as large as they may be', () => {
    expect(flagged(candidates(candidate(-2330))).reasons).toEqual([
      'Turns 58° a frame, but the marks do not settle it: 2330 rpm the other way fits as well.',
    ])
  })
  it('of a ball that turns counter-clockwise are told by the same rule', () => {
    const turning = { candidates: [candidate(-2330), candidate(-2345)] }
    expect(flagged(turning, {}, { rpm: -2330 }).flag).toBe('clear')
  })
  it('clearly worse, or not plausible, do not count', () => {
    expect(flagged(candidates(candidate(4000, 0.99e-4))).flag).toBe('clear')
    expect(flagged(candidates(candidate(4000, 1e-4))).flag).toBe('ambiguous')
    expect(flagged(candidates(candidate(8000, 1, false))).flag).toBe('clear')
  })
  it('are counted, the first by name', () => {
    expect(flagged(candidates(candidate(4000), candidate(3000), candidate(1000))).reasons[0]).toBe(
      'Turns 58° a frame, but the marks do not settle it: 4000 rpm fits as well, and 2 more.',
    )
  })
  // One whole turn a frame less is 14400 rpm less at 240 fps: 58.25° looks like 301.75° the other way.
  it('a whole turn a frame apart look alike', () => {
    expect(flagged(candidates(candidate(2330 - 14400))).reasons[0]).toBe(
      'Turns 58° a frame. At 240 frames a second that looks like 302° the other way: 12070 rpm the other way fits as well.',
    )
    expect(flagged(candidates(candidate(2330 + 14400))).reasons[0]).toBe(
      'Turns 58° a frame. At 240 frames a second that looks like 418°: 16730 rpm fits as well.',
    )
  })
  it('past half a repeat the camera cannot tell which way: half a turn for a logo, less for what repeats', () => {
    const fast = { candidates: [candidate(8000), candidate(8000 - 14400)] }
    expect(flagged(fast, {}, { rpm: 8000, ceiling: null }).reasons[0]).toBe(
      'Turns 200° a frame. Above 180° the camera cannot tell which way: 6400 rpm the other way fits as well.',
    )
    // Order 4 beside order 6: half a repeat of the one that repeats least is 45°, aliases are 3600 rpm apart.
    const star = {
      marks: [
        { id: 'star', symmetryOrder: 6 },
        { id: 'cross', symmetryOrder: 4 },
      ],
      sightings: Array.from({ length: 24 }, (_, frame) => ({
        kind: 'direction' as const,
        frame,
        mark: frame % 2,
        bearingRad: 0,
      })),
    }
    expect(flagged(candidates(candidate(2330 - 3600)), star).reasons[0]).toBe(
      'Turns 58° a frame. Above 45° the camera cannot tell which way: 1270 rpm the other way fits as well.',
    )
  })
  it('read from the surface speak of pictures', () => {
    const read = { ...candidates(candidate(4000)), method: 'surface' as const }
    expect(flagged(read).reasons[0]).toBe(
      'Turns 58° a frame, but the pictures of the ball do not settle it: 4000 rpm fits as well.',
    )
  })
})

describe('what was said to be plausible', () => {
  it('is in doubt where something else fits five times better', () => {
    const others = (support: number) => ({
      candidates: [candidate(2330, 0.1), candidate(-6000, support, false)],
    })
    expect(flagged(others(0.49)).flag).toBe('clear')
    expect(flagged(others(0.51))).toEqual({
      flag: 'ambiguous',
      reasons: [
        '6000 rpm counter-clockwise, which should not be, fits far better than 2330 rpm clockwise: check the marks and the sense.',
      ],
    })
  })
  it('names the bound that the best rate breaks, or the sense', () => {
    const alone = { candidates: [candidate(2330, 1, false)] }
    const slow = { plausible: { maxRateRadPerSecond: radPerSecondOfRpm(2000), sense: null } }
    expect(flagged(alone, slow).reasons[0]).toBe(
      'No plausible rate fits: the best is 2330 rpm clockwise, where it should be at most 2000 rpm.',
    )
    const other = {
      plausible: { maxRateRadPerSecond: radPerSecondOfRpm(5000), sense: 'counter-clockwise' as const },
    }
    expect(flagged(alone, other).reasons[0]).toBe(
      'No plausible rate fits: the best is 2330 rpm clockwise, where it should be turning counter-clockwise.',
    )
  })
})

describe('the ceiling', () => {
  it.each([
    ['sense', 'faster, the sense cannot be told'],
    ['seeing', 'faster, the mark is not seen in two frames running'],
    ['smear', 'faster, the mark smears too far'],
    ['counting', 'faster, counting is too coarse'],
  ] as const)('of %s is named when it is passed, and when it is near', (limit, words) => {
    expect(flagged({}, {}, { ceiling: { rpm: 2329, limit } })).toEqual({
      flag: 'ambiguous',
      reasons: [`Turns 58° a frame: past the ceiling of 2329 rpm (${words}).`],
    })
    expect(flagged({}, {}, { ceiling: { rpm: 2500, limit } })).toEqual({
      flag: 'near-ceiling',
      reasons: [`The band reaches 94 % of the ceiling, 2500 rpm (${words}).`],
    })
  })
  it('is near from four fifths on, by the upper edge of the band: 2350 of 2937.5', () => {
    expect(flagged({}, {}, { ceiling: { rpm: 2938, limit: 'smear' } }).flag).toBe('clear')
    expect(flagged({}, {}, { ceiling: { rpm: 2937, limit: 'smear' } }).flag).toBe('near-ceiling')
    expect(flagged({}, {}, { ceiling: { rpm: 2330, limit: 'smear' } }).flag).toBe('near-ceiling')
  })
})

describe('too few', () => {
  it('six marks with four numbers to spare are enough; five, or three to spare, are not', () => {
    const first = (n: number) => ({ sightings: observationsWith().sightings.slice(0, n) })
    expect(flagged(scatter(1, 4), first(6)).flag).toBe('clear')
    expect(flagged(scatter(1, 4), first(5))).toEqual({
      flag: 'too-few-frames',
      reasons: ['5 marks hardly check each other. Mark at least 6.'],
    })
    expect(flagged(scatter(1, 3.9), first(8)).reasons).toEqual([
      '8 marks hardly check each other. Mark at least 9.',
    ])
    expect(flagged(scatter(1, 0.4), first(3)).reasons).toEqual([
      '3 marks fix the rate with nothing left to check it by. Mark at least 6.',
    ])
    expect(flagged(scatter(1, 0.5), first(3)).reasons[0]).toMatch(/^3 marks hardly check/)
    expect(flagged({ ...scatter(1, 0.4), method: 'surface' }, first(3)).reasons).toEqual([
      '3 pictures of the ball fix the rate with nothing left to check it by. It takes at least 6.',
    ])
  })
  it('scatter beyond two and a half clicks, stated or assumed (1.5 px), carries no figure', () => {
    expect(flagged(scatter(2.5)).flag).toBe('clear')
    expect(flagged(scatter(2.51))).toEqual({
      flag: 'too-few-frames',
      reasons: ['The marks scatter by 2.5 px where clicks err by 1.0 px: long smears, or wrong marks.'],
    })
    expect(flagged(scatter(3.74), { clickPx: null }).flag).toBe('clear')
    expect(flagged(scatter(3.76), { clickPx: null }).reasons[0]).toMatch(
      /scatter by 3\.8 px where clicks err by 1\.5 px/,
    )
    expect(flagged({ ...scatter(3), method: 'surface' }).reasons[0]).toBe(
      'The pictures of the ball disagree by 3.0 px where 1.0 px is usual: a wrong outline, or not one steady rotation.',
    )
  })
  it('what nothing checks is said', () => {
    expect(flagged({ unchecked: 'The axis is not known.' })).toEqual({
      flag: 'too-few-frames',
      reasons: ['The axis is not known.'],
    })
  })
  it('stands beside a near ceiling, and behind ambiguity, which leaves the near ceiling unsaid', () => {
    const ceiling = { rpm: 2500, limit: 'smear' } as const
    const few = flagged({ unchecked: 'Unchecked.' }, {}, { ceiling })
    expect(few.flag).toBe('too-few-frames')
    expect(few.reasons).toEqual(['Unchecked.', expect.stringMatching(/^The band reaches 94 %/)])
    const candidates = [candidate(2330), candidate(4000)]
    const ambiguous = flagged({ candidates, unchecked: 'Unchecked.' }, {}, { ceiling })
    expect(ambiguous.flag).toBe('ambiguous')
    expect(ambiguous.reasons).toEqual([expect.stringMatching(/4000 rpm fits as well/), 'Unchecked.'])
  })
})
