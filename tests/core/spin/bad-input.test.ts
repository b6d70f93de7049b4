import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { readingSchema } from '../../../core/contract/reading.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { marksOf } from './truth.ts'

/** Marks that a schema lets through, or that reach the core past it, and that no honest figure can come from. */
const spoiled = (change: (marks: Marks) => void): Marks => {
  const marks = structuredClone(marksOf({ clickPx: 1, writtenTime: t => t }))
  change(marks)
  return marks
}
const point = (marks: Marks, frame: number) => marks.frames[frame]!.seen[0] as { xPx: number; yPx: number }

describe('marks that cannot be measured give a reading with a reason', () => {
  it.each<[string, (marks: Marks) => void, RegExp]>([
    [
      'no frames',
      m => {
        m.frames = []
      },
      /No mark was seen in any frame/,
    ],
    [
      'all in one frame',
      m => {
        m.frames = m.frames.slice(0, 1)
      },
      /one sighting shows no turning/,
    ],
    [
      'all hidden',
      m => {
        for (const f of m.frames) {
          f.seen = []
          f.hidden = ['logo']
        }
      },
      /No mark was seen in any frame/,
    ],
    [
      'a place that is not a number',
      m => {
        point(m, 3).xPx = Number.NaN
      },
      /Frame 3: “logo” has a place that is not a number/,
    ],
    [
      'a mark outside the outline by 20 %',
      m => {
        point(m, 3).xPx = m.frames[3]!.outline!.xPx + 43
        point(m, 3).yPx = m.frames[3]!.outline!.yPx
      },
      /Frame 3: “logo” lies 19 % of the radius outside the ball/,
    ],
    [
      'an outline that jumps',
      m => {
        m.frames[9]!.outline!.xPx += 300
        point(m, 9).xPx += 300
      },
      /The outline jumps between frames 8 and 9/,
    ],
    [
      'an outline that doubles',
      m => {
        m.frames[9]!.outline!.radiusPx *= 2
      },
      /The outline jumps between frames 8 and 9/,
    ],
    [
      'times that run backwards',
      m => {
        m.frames[9]!.timeSeconds = 0.001
      },
      /Time runs backwards from frame 8 to frame 9/,
    ],
    [
      'two frames with one time',
      m => {
        m.frames[9]!.timeSeconds = m.frames[8]!.timeSeconds
      },
      /Frames 8 and 9 have one and the same time/,
    ],
    [
      'one frame twice',
      m => {
        m.frames[9]!.index = 8
      },
      /Frame 8 is there twice/,
    ],
    [
      'a capture rate of 0',
      m => {
        m.capture.fps = 0
      },
      /A capture rate of 0 frames a second is no camera’s/,
    ],
    [
      'a capture rate of 1e9',
      m => {
        m.capture.fps = 1e9
      },
      /is no camera’s/,
    ],
    [
      'a capture rate that is not a number',
      m => {
        m.capture.fps = Number.NaN
      },
      /is no camera’s/,
    ],
    [
      'a mark seen twice in a frame',
      m => {
        m.frames[4]!.seen.push({ mark: 'logo', xPx: 300, yPx: 250 })
      },
      /Frame 4 has the mark “logo” twice/,
    ],
    [
      'a mark both seen and hidden',
      m => {
        m.frames[4]!.hidden = ['logo']
      },
      /Frame 4 has the mark “logo” twice/,
    ],
    [
      'a mark nobody listed',
      m => {
        m.frames[4]!.seen[0]!.mark = 'dot'
      },
      /“dot” that is not in the list of marks/,
    ],
    [
      'a place without an outline',
      m => {
        m.frames[4]!.outline = undefined
      },
      /no outline of the ball to measure it from/,
    ],
    [
      'frames that span an hour',
      m => {
        for (const f of m.frames) f.timeSeconds = f.index * 150
      },
      /too long for one flight/,
    ],
  ])('%s', (_, change, reason) => {
    const reading = readMarks(spoiled(change))
    expect(reading.rpm).toBeNull()
    expect(reading.band).toBeNull()
    expect(reading.reasons[0]).toMatch(reason)
    expect(reading.reasons[1]!.length).toBeGreaterThan(8)
    expect(() => readingSchema.parse(reading)).not.toThrow()
  })
  it('marks that contradict each other: every other frame shows another thing', () => {
    const scattered = spoiled(m => {
      m.frames.forEach((frame, i) => {
        const bearing = 2.7 * i * i
        frame.seen = [
          {
            mark: 'logo',
            xPx: frame.outline!.xPx + 22 * Math.cos(bearing),
            yPx: frame.outline!.yPx + 22 * Math.sin(bearing),
          },
        ]
      })
    })
    const reading = readMarks(scattered)
    expect(reading.flag).not.toBe('clear')
    expect(reading.rpm === null || reading.flag === 'ambiguous').toBe(true)
  })
  it('a ball that stands still reads 0 within its band', () => {
    const reading = readMarks(marksOf({ rpm: 0, kind: 'direction', clickPx: 0.5 }))
    expect(reading.rpm!).toBeLessThan(reading.band!.highRpm)
    expect(reading.band!.lowRpm).toBe(0)
  })
})
