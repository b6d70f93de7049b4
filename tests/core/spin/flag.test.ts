import { describe, expect, it } from 'vitest'
import { readMarks, readMarksInDetail } from '../../../core/spin/read-marks.ts'
import { readingOf } from '../../../core/spin/reading-of.ts'
import { marksOf } from './truth.ts'

describe('flags', () => {
  it('clear: 2330 rpm at 240 fps', () => {
    const reading = readMarks(marksOf({ clickPx: 1 }))
    expect(reading.flag).toBe('clear')
    expect(reading.candidates.filter(candidate => candidate.plausible)).toHaveLength(1)
  })
  it('near the ceiling: 3200 rpm at 240 fps with 1/500 s of exposure, whose smear ends at 3750', () => {
    const reading = readMarks(marksOf({ clickPx: 1, rpm: 3200, capture: { exposureSeconds: 1 / 500 } }))
    expect(reading.flag).toBe('near-ceiling')
    expect(reading.reasons[0]).toMatch(
      /^The band reaches \d+ % of the ceiling, 3750 rpm \(faster, the mark smears too far\)\.$/,
    )
  })
  it('ambiguous: 2330 rpm at 60 fps turns 233° a frame, which looks like 127° the other way', () => {
    const reading = readMarks(marksOf({ fps: 60, clickPx: 1 }))
    expect(reading.flag).toBe('ambiguous')
    expect(reading.reasons[0]).toMatch(
      /Turns 127° a frame.*looks like 233° the other way: 23\d\d rpm the other way fits as well/,
    )
  })
  it('the same with the sense known is clear, and says 233°', () => {
    const reading = readMarks(marksOf({ fps: 60, clickPx: 1, sense: 'clockwise' }))
    expect(reading.flag).toBe('clear')
    expect(reading.rotationPerFrameDeg!).toBeCloseTo(233, 0)
  })
  it('ambiguous, past half a repeat, once a person settled on the fast one: the reason travels and the flag stays', () => {
    const settled = { rpm: 2330, sense: 'clockwise' as const, reason: 'It was topspin, seen from the left.' }
    const reading = readMarks({ ...marksOf({ fps: 60, clickPx: 1 }), settled })
    expect(reading.flag).toBe('ambiguous')
    expect(reading.sense).toBe('clockwise')
    expect(Math.abs(reading.rpm! - 2330)).toBeLessThan(5)
    expect(reading.reasons[0]).toMatch(
      /^Turns 233° a frame\. Above 180° the camera cannot tell which way: 1270 rpm the other way fits as well/,
    )
    expect(reading.reasons).toContainEqual(expect.stringContaining('It was topspin, seen from the left.'))
  })
  it('a settled rate that the marks no longer fit is said to be gone', () => {
    const settled = { rpm: 3500, sense: 'clockwise' as const, reason: 'A guess.' }
    const reading = readMarks({ ...marksOf({ clickPx: 1 }), settled })
    expect(reading.reasons.join(' ')).toMatch(/no longer fit the rate that was settled on/)
  })
  it('too few frames: three marks hardly check each other, two not at all', () => {
    const three = readMarks(marksOf({ frames: 3, clickPx: 1 }))
    expect(three.flag).toBe('too-few-frames')
    const two = readMarks(marksOf({ frames: 2, clickPx: 1 }))
    expect(two.flag).toBe('too-few-frames')
    expect(two.reasons.join(' ')).toMatch(/nothing left to check it by/)
    expect(two.reasons.join(' ')).toMatch(/assumed click error, 1\.5 px/)
  })
  it('marks that scatter far beyond the click error are too few to carry a figure', () => {
    const reading = readMarks(marksOf({ clickPx: 2.5, statedClickPx: 0.5 }))
    expect(reading.flag).toBe('too-few-frames')
    expect(reading.reasons[0]).toMatch(/The marks scatter by 2\.\d px where clicks err by 0\.5 px/)
  })
  it('an axis that nothing shows keeps a reading from clear', () => {
    const reading = readMarks(marksOf({ kind: 'direction', frames: 5, rpm: 800, clickPx: 1 }))
    expect(reading.flag).toBe('too-few-frames')
    expect(reading.reasons.join(' ')).toMatch(/do not show where the axis points/)
  })
  it('a rate beyond the plausible ones is shown, and said to be', () => {
    const reading = readMarks(marksOf({ rpm: 2330, maxRpm: 2000, clickPx: 1 }))
    expect(reading.flag).toBe('ambiguous')
    expect(reading.rpm!).toBeGreaterThan(2300)
    expect(reading.reasons[0]).toMatch(
      /No plausible rate fits: the best is 23\d\d rpm clockwise, where it should be at most 2000 rpm/,
    )
  })
  it.each([
    ['too few', marksOf({ frames: 3, clickPx: 1 })],
    ['that scatter', marksOf({ clickPx: 2.5, statedClickPx: 0.5 })],
  ])('a reading from the surface with pictures %s speaks of pictures, not of marks or clicks', (_, marks) => {
    const { estimate, observations } = readMarksInDetail(marks)
    const reading = readingOf(
      marks,
      { ...estimate!, method: 'surface', unchecked: undefined, remarks: [] },
      observations!,
    )
    expect(reading.reasons[0]).toMatch(/pictures of the ball/)
    expect(reading.reasons.join(' ')).not.toMatch(/marks|click/i)
  })
})
