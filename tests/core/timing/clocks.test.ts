import { describe, expect, it } from 'vitest'
import { evenClock, tickThatShows } from '../../../core/timing/even-clock.ts'
import { frameTimes } from '../../../core/timing/frame-times.ts'
import { readoutDelaySeconds } from '../../../core/timing/readout.ts'

const count = (n: number) => Array.from({ length: n }, (_, i) => i)
const gaps = (times: number[]) => times.slice(1).map((t, i) => t - times[i]!)
const rounded = (seconds: number, tick: number) => Math.round(seconds / tick) * tick

describe('frame times', () => {
  const slow = { timestampsSeconds: [0, 1 / 30, 2 / 30], playbackFps: 30, captureFps: 240, trusted: true }
  it('a slow-motion export runs at its capture rate again', () => {
    frameTimes(slow).forEach((t, i) => {
      expect(t).toBeCloseTo(i / 240, 12)
    })
  })
  it('a file played at its capture rate, nearly, keeps its timestamps and their gaps', () => {
    const timestampsSeconds = [0, 1 / 240, 4 / 240]
    expect(frameTimes({ ...slow, timestampsSeconds, playbackFps: 236.2 })).toEqual(timestampsSeconds)
  })
  it('timestamps that cannot be trusted give way to the frame count', () => {
    const times = frameTimes({ ...slow, timestampsSeconds: [0, 0, 5], trusted: false })
    expect(times).toEqual([0, 1 / 240, 2 / 240])
  })
  it('without a capture rate the timestamps are all there is', () => {
    expect(frameTimes({ ...slow, captureFps: null, trusted: false })).toEqual(slow.timestampsSeconds)
  })
})

describe('the even clock behind rounded times', () => {
  it('240 fps in 1/600 s alternates 2 and 3 ticks, and is even underneath', () => {
    const times = count(12).map(i => rounded(i / 240, 1 / 600))
    expect(new Set(gaps(times).map(gap => Math.round(gap * 600)))).toEqual(new Set([2, 3]))
    for (const gap of gaps(evenClock(times, count(12), 240, 1 / 600)!)) expect(gap).toBeCloseTo(1 / 240, 12)
  })
  it('a tick nearly as long as a frame is sorted out by the frames’ numbers', () => {
    const times = count(20).map(i => rounded(i / 480 + 0.0004, 1 / 600))
    for (const gap of gaps(evenClock(times, count(20), 480, 1 / 600)!)) expect(gap).toBeCloseTo(1 / 480, 12)
  })
  it('frames dropped without a trace in their numbers keep their gap', () => {
    const real = [0, 1, 2, 5, 6, 7].map(i => i / 240)
    const even = evenClock(
      real.map(t => rounded(t, 1 / 600)),
      count(6),
      240,
      1 / 600,
    )!
    gaps(even).forEach((gap, i) => {
      expect(gap).toBeCloseTo((i === 2 ? 3 : 1) / 240, 12)
    })
  })
  it('frames that really were uneven have none', () => {
    const times = count(12).map(i => rounded((i + 0.4 * Math.sin(i)) / 240, 1 / 600))
    expect(evenClock(times, count(12), 240, 1 / 600)).toBeNull()
  })
  it('a tick shows in times that all are whole milliseconds, not in others', () => {
    expect(tickThatShows([0, 0.004, 0.008, 0.013], 240)).toBe(1 / 1000)
    expect(tickThatShows([0, 2 / 600, 5 / 600], 240)).toBe(1 / 600)
    expect(tickThatShows([0, 1 / 240, 2 / 240], 240)).toBeNull()
  })
})

describe('rolling shutter', () => {
  it('the middle row is read after half the readout', () => {
    expect(readoutDelaySeconds(270, { heightPx: 540 }, 0.006)).toBeCloseTo(0.003, 12)
  })
})
