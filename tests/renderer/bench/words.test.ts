import { describe, expect, it } from 'vitest'
import { countedWords, turningWords } from '../../../renderer/components/reading-words.ts'
import { blockedWhy } from '../../../renderer/screens/bench/reading/blocked-why.ts'
import { drawnAxis } from '../../../renderer/screens/bench/reading/drawn-axis.ts'
import { readingOf } from '../stand-in-data.ts'

describe('the reading in words', () => {
  it('says how far the ball turns from frame to frame, and how many frames a turn takes', () => {
    // 2330 rpm at 240 fps: 58.25° a frame and 6.1803 frames a turn, by arithmetic.
    expect(turningWords({ rotationPerFrameDeg: 58.25, framesPerRevolution: 6.1803 })).toMatch(
      /^58\.[23]° a frame, 6\.18 a turn$/,
    )
    expect(turningWords({ rotationPerFrameDeg: null, framesPerRevolution: null })).toBeNull()
  })

  it('says what counting would have said', () => {
    const counted = { turns: 2, frames: 12, rpm: 2400, lowRpm: 2254.2, highRpm: 2565.9 }
    expect(countedWords(counted)).toBe('2400 (2254–2566)')
  })

  it('says why it cannot be accepted yet', () => {
    expect(blockedWhy(null, null)).toMatch(/no reading/)
    expect(blockedWhy(readingOf(2331, 9), null)).toBeNull()
    const ambiguous = readingOf(2331, 9, 'ambiguous', 60)
    expect(blockedWhy(ambiguous, null)).toMatch(/choose the rate/)
    const settled = { rpm: 2331, sense: 'clockwise' as const, reason: 'the shot was topspin' }
    expect(blockedWhy(ambiguous, settled)).toBeNull()
  })
})

describe('the drawn axis', () => {
  const placed = (way: string) => way.match(/-?[\d.]+/g)!.map(Number)

  it('points its arrow to the right over the top when the ball turns clockwise on the screen', () => {
    // Clockwise is a rotation vector away from the camera; tipped up, the equator's near side is the upper one.
    const [x, y, deg] = placed(drawnAxis({ x: 0, y: -0.3, z: 0.95 }, 10).way)
    expect(x).toBeCloseTo(0, 6)
    expect(y).toBeLessThan(0)
    expect(deg).toBeCloseTo(0, 6)
  })

  it('lies on the ball’s middle for an axis across the picture, the surface moving with the right hand', () => {
    const [x, y, deg] = placed(drawnAxis({ x: 1, y: 0, z: 0 }, 10).way)
    expect([x, y]).toEqual([0, 0])
    // By v = a × p: (1, 0, 0) × (0, 0, −1) = (0, 1, 0), down the screen.
    expect(deg).toBe(90)
  })
})
