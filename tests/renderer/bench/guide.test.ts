import { describe, expect, it } from 'vitest'
import { newHitMarks } from '../../../core/marking/new-hit-marks.ts'
import {
  type Asking,
  nextOutlineFrame,
  nextUnmarkedFrame,
  prompt,
} from '../../../renderer/screens/bench/state/guide.ts'

const window = { fromFrame: 10, toFrame: 30 }
const outlines = (...frames: number[]) => frames.map(frame => ({ frame, xPx: 1, yPx: 1, radiusPx: 9 }))

describe('where the next outline is wanted', () => {
  it('is the first frame, then the last, then about the middle, then nowhere', () => {
    expect(nextOutlineFrame([], window)).toBe(10)
    expect(nextOutlineFrame(outlines(10), window)).toBe(30)
    expect(nextOutlineFrame(outlines(10, 30), window)).toBe(20)
    expect(nextOutlineFrame(outlines(10, 18, 30), window)).toBeNull()
  })

  it('is not the middle of a window of a few frames', () => {
    expect(nextOutlineFrame(outlines(10, 14), { fromFrame: 10, toFrame: 14 })).toBeNull()
  })
})

describe('the next frame to mark', () => {
  const marks = {
    ...newHitMarks({ fromFrame: 5, toFrame: 9 }),
    sightings: [
      { kind: 'hidden' as const, frame: 6, mark: 'logo' },
      { kind: 'point' as const, frame: 7, mark: 'logo', xPx: 1, yPx: 1 },
      { kind: 'point' as const, frame: 8, mark: 'dot', xPx: 1, yPx: 1 },
    ],
  }
  it('passes over frames that were looked at, hidden ones too, and comes round from the end', () => {
    expect(nextUnmarkedFrame(marks, 'logo', 5)).toBe(8)
    expect(nextUnmarkedFrame(marks, 'logo', 9)).toBe(5)
    expect(nextUnmarkedFrame(marks, 'logo', 100)).toBe(5)
  })

  it('is none when every frame was looked at', () => {
    const all = [5, 6, 7, 8, 9].map(frame => ({ kind: 'hidden' as const, frame, mark: 'logo' }))
    expect(nextUnmarkedFrame({ ...marks, sightings: all }, 'logo', 7)).toBeNull()
  })
})

describe('the line that says what to do', () => {
  const asking: Asking = {
    mode: 'outline',
    rimPoints: 0,
    whole: true,
    proposed: true,
    direction: false,
    markName: 'logo',
    done: false,
    seen: 0,
    here: false,
    verdict: 'open',
    proposing: false,
    byItself: null,
  }
  it('says so where this frame has the mark already', () => {
    expect(prompt({ ...asking, mode: 'mark', rimPoints: null, seen: 5, here: true })).toMatch(
      /^“logo” is marked here/,
    )
  })

  it('leads from the whole picture to three rim points, the circle and the marks', () => {
    expect(prompt(asking)).toBe('Click the ball to come closer')
    expect(prompt({ ...asking, whole: false })).toBe('Mark three points on the rim')
    expect(prompt({ ...asking, whole: false, rimPoints: 2 })).toBe('One more point on the rim')
    expect(prompt({ ...asking, rimPoints: null })).toMatch(/^Does the circle sit on the rim/)
    expect(prompt({ ...asking, mode: 'mark', rimPoints: null })).toMatch(/^Click “logo”; the next frame/)
    expect(prompt({ ...asking, mode: 'mark', rimPoints: null, seen: 1 })).toMatch(/two make a reading$/)
    expect(prompt({ ...asking, mode: 'mark', rimPoints: null, direction: true })).toMatch(/^Lay the line/)
    const marked = { ...asking, mode: 'mark' as const, rimPoints: null, done: true }
    expect(prompt(marked)).toMatch(/^Every frame/)
    expect(prompt({ ...marked, verdict: 'accepted' })).toBe('This hit is accepted')
  })

  it('tells after a reading by itself what there is to look at, and to mark by hand where it gave none', () => {
    const read = { ...asking, mode: 'mark' as const, rimPoints: null }
    expect(prompt({ ...read, byItself: 'one' })).toMatch(/^Read by itself.*accept it$/)
    expect(prompt({ ...read, byItself: 'several' })).toMatch(/several rates fit.*Choose one/)
    expect(prompt({ ...read, proposing: true, byItself: 'one' })).toMatch(/Click where “logo” really is/)
    expect(prompt({ ...read, byItself: 'none' })).toMatch(/^Click “logo”/)
    expect(prompt({ ...read, byItself: 'one', verdict: 'accepted' })).toBe('This hit is accepted')
  })
})
