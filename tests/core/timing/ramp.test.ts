import { describe, expect, it } from 'vitest'
import { stretchesOf } from '../../../core/timing/ramp.ts'

/** Times of frames that follow each other at these steps, so many of each. */
const timesOf = (...runs: [count: number, step: number][]) => {
  const times = [0]
  for (const [count, step] of runs) for (let i = 0; i < count; i++) times.push(times.at(-1)! + step)
  return times
}
const tick = 1 / 90_000

describe('stretches of one speed', () => {
  it('normal, slow, normal: three, with their borders and rates', () => {
    const found = stretchesOf(timesOf([30, 1 / 240], [60, 1 / 30], [30, 1 / 240]), tick)
    expect(found.map(({ fromFrame, toFrame }) => [fromFrame, toFrame])).toEqual([
      [0, 30],
      [30, 90],
      [90, 120],
    ])
    expect(found.map(({ fps }) => Math.round(fps))).toEqual([240, 30, 240])
  })

  it('an even clip is one', () => {
    expect(stretchesOf(timesOf([100, 1 / 240]), tick)).toHaveLength(1)
  })

  it('gaps of dropped frames do not part it', () => {
    expect(stretchesOf(timesOf([30, 1 / 240], [1, 4 / 240], [30, 1 / 240]), tick)).toHaveLength(1)
  })

  it('2 and 3 ticks of 1/600 s by turns are one speed', () => {
    const times = Array.from({ length: 120 }, (_, i) => Math.round((i * 600) / 240) / 600)
    expect(stretchesOf(times, 1 / 600)).toHaveLength(1)
  })

  it.each([[[]], [[0]], [[0, 1]]])('%j has none', times => {
    expect(stretchesOf(times, tick)).toEqual([])
  })
})
