import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { faultOf, type TimedFrame } from '../../../core/spin/check-marks.ts'
import { marksOf } from './truth.ts'

/** Marks of a ball of 36 px in 24 frames at 240 fps, a logo 0.6 of the radius from the axis, after a change. */
function fault(change: (marks: Marks, frames: TimedFrame[]) => void) {
  const marks = marksOf()
  const frames = marks.frames.map(frame => ({ ...structuredClone(frame), atSeconds: frame.index / 240 }))
  change(marks, frames)
  return faultOf(marks, frames)
}
/** Puts the logo so many px outside the outline of a frame. */
const outside = (frame: TimedFrame, px: number) => {
  const { xPx, yPx, radiusPx } = frame.outline!
  frame.seen = [{ mark: 'logo', xPx: xPx + radiusPx + px, yPx }]
}

it('marks with nothing wrong have no fault', () => {
  expect(fault(() => {})).toBeNull()
  expect(fault((_, frames) => frames.splice(0))).toBeNull()
})

describe('a capture rate', () => {
  it.each([1, 30, 1e6])('of %d is believed', fps => {
    expect(
      fault(marks => {
        marks.capture.fps = fps
      }),
    ).toBeNull()
  })
  it.each([0.99, 1e6 + 1, -240])('of %d is no camera’s', fps => {
    const found = fault(marks => {
      marks.capture.fps = fps
    })
    expect(found!.reason).toBe(`A capture rate of ${fps} frames a second is no camera’s.`)
    expect(found!.tip).toMatch(/between 1 and 1 000 000/)
    expect(found!.contradictory).toBeUndefined()
  })
})

describe('a mark outside the outline', () => {
  // A tenth of 36 px is 3.6 px; 2.5 clicks of the assumed 1.5 px are 3.75 px, the larger.
  it.each([
    [null, 3.74, false],
    [null, 3.76, true],
    [0.5, 3.59, false],
    [0.5, 3.61, true],
    [4, 9.9, false],
    [4, 10.1, true],
  ])('by a click error of %d px, %d px outside: a fault is %s', (clickPx, px, isFault) => {
    const found = fault((marks, frames) => {
      if (clickPx !== null) marks.click = { standardUncertaintyPx: clickPx }
      outside(frames[5]!, px)
    })
    expect(found !== null).toBe(isFault)
    if (isFault)
      expect(found!.reason).toBe(
        `Frame 5: “logo” lies ${((100 * px) / 36).toFixed(0)} % of the radius outside the ball.`,
      )
  })
  it('is a fault upwards as to the right', () => {
    const found = fault((_, frames) => {
      const { xPx, yPx } = frames[7]!.outline!
      frames[7]!.seen = [{ mark: 'logo', xPx, yPx: yPx - 54 }]
    })
    expect(found!.reason).toMatch(/^Frame 7: “logo” lies 50 % of the radius outside/)
  })
})

describe('what is no number', () => {
  it.each<[string, (frame: TimedFrame) => void]>([
    ['a mark’s height', frame => Object.assign(frame.seen[0]!, { yPx: Number.NaN })],
    [
      'a direction',
      frame => {
        frame.seen = [{ mark: 'logo', bearingDeg: Number.POSITIVE_INFINITY }]
      },
    ],
    ['an outline’s place', frame => Object.assign(frame.outline!, { xPx: Number.NaN })],
    ['an outline’s height', frame => Object.assign(frame.outline!, { yPx: Number.NaN })],
    ['an outline’s size', frame => Object.assign(frame.outline!, { radiusPx: Number.POSITIVE_INFINITY })],
  ])('in %s is a fault of that frame', (_, spoil) => {
    expect(fault((_, frames) => spoil(frames[2]!))!.reason).toBe(
      'Frame 2: “logo” has a place that is not a number.',
    )
  })
  it('in a time is a fault of that frame', () => {
    const found = fault((_, frames) => {
      frames[3]!.atSeconds = Number.NaN
    })
    expect(found!.reason).toBe('Frame 3 has no time that is a number.')
  })
})

describe('a missing outline', () => {
  it('is a fault where a place is to be measured from it, and so is one without a size', () => {
    for (const outline of [undefined, { xPx: 300, yPx: 260, radiusPx: 0 }]) {
      const found = fault((_, frames) => {
        frames[6]!.outline = outline
      })
      expect(found!.reason).toBe(
        'Frame 6 has the place of “logo” but no outline of the ball to measure it from.',
      )
    }
  })
  it('is none where a direction is enough, or nothing was seen', () => {
    expect(
      fault((_, frames) => {
        frames[6]!.outline = undefined
        frames[6]!.seen = [{ mark: 'logo', bearingDeg: 10 }]
        frames[7]!.outline = undefined
        frames[7]!.seen = []
      }),
    ).toBeNull()
  })
})

describe('names', () => {
  it('a hidden mark that nobody listed is a fault', () => {
    const found = fault((_, frames) => {
      frames[4]!.hidden = ['dot']
    })
    expect(found).toMatchObject({
      reason: 'Frame 4 has a mark “dot” that is not in the list of marks.',
      tip: 'Add it there.',
    })
  })
  it('one mark in two places contradicts itself', () => {
    const found = fault((_, frames) => {
      frames[4]!.seen.push({ ...frames[4]!.seen[0]! })
    })
    expect(found!.contradictory).toBe(true)
    expect(found!.reason).toMatch(/^Frame 4 has the mark “logo” twice, and it cannot be in two places\.$/)
  })
})

describe('times', () => {
  it('a frame that is there twice contradicts itself', () => {
    const found = fault((_, frames) => {
      frames[1]!.index = 0
    })
    expect(found).toMatchObject({ reason: 'Frame 0 is there twice.', contradictory: true })
  })
  it('the first two frames and the last two are looked at too', () => {
    for (const at of [1, 23]) {
      const same = fault((_, frames) => {
        frames[at]!.atSeconds = frames[at - 1]!.atSeconds
      })
      expect(same!.reason).toBe(`Frames ${at - 1} and ${at} have one and the same time.`)
      const back = fault((_, frames) => {
        frames[at]!.atSeconds = frames[at - 1]!.atSeconds - 0.001
      })
      expect(back!.reason).toBe(`Time runs backwards from frame ${at - 1} to frame ${at}.`)
    }
  })
  // A flight of 30 s is let through, a longer one is not: no ball flies so long (common practice, no source).
  it.each([
    [30, null],
    [30.5, 'The frames span 31 s: too long for one flight.'],
  ])('a span of %d s: %s', (span, reason) => {
    const found = fault((_, frames) => {
      for (const frame of frames) frame.atSeconds = 5 + (span * frame.index) / 23
    })
    expect(found?.reason ?? null).toBe(reason)
  })
})

describe('outlines', () => {
  const growing = (from: number, factor: number, gone = 0) =>
    fault((_, frames) => {
      frames.splice(from, gone)
      for (const frame of frames.slice(from)) {
        frame.outline!.radiusPx *= factor
        frame.seen = []
      }
    })
  it('that grow or shrink by half from frame to frame are a fault, by less none', () => {
    expect(growing(10, 1.49)).toBeNull()
    expect(growing(10, 1.51)!.reason).toBe('The outline jumps between frames 9 and 10.')
    expect(growing(10, 1 / 1.49)).toBeNull()
    expect(growing(10, 1 / 1.51)!.reason).toBe('The outline jumps between frames 9 and 10.')
  })
  it('may grow by half as often as frames were left out', () => {
    // From frame 9 to frame 12: three times by half, 3.375.
    expect(growing(10, 3.3, 2)).toBeNull()
    expect(growing(10, 3.4, 2)!.reason).toBe('The outline jumps between frames 9 and 12.')
  })
  /** A ball that flies 10 px a frame to the right and then leaps by so much more, upwards or to the right. */
  const leaping = (px: number, along: 'xPx' | 'yPx') =>
    fault((_, frames) => {
      for (const frame of frames) {
        frame.seen = []
        frame.outline!.xPx += 10 * frame.index
        if (frame.index >= 12) frame.outline![along] -= px
      }
    })
  it('leap where a step is far beyond thrice the usual and twice the ball', () => {
    // Usual 10 px a frame; a leap is a fault from 3 · 10 + 4 · 36 = 174 px on.
    expect(leaping(183, 'xPx')).toBeNull()
    expect(leaping(185, 'xPx')!.reason).toBe('The outline jumps between frames 11 and 12.')
    expect(leaping(173, 'yPx')).toBeNull()
    expect(leaping(174, 'yPx')!.reason).toBe('The outline jumps between frames 11 and 12.')
  })
  it('in two frames alone have no usual step to leap from', () => {
    expect(
      fault((_, frames) => {
        frames.splice(2)
        frames[1]!.outline!.xPx += 400
        frames[1]!.seen = []
      }),
    ).toBeNull()
  })
})
