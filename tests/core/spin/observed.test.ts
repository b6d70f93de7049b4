import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../core/contract/marks.ts'
import { observationsOf } from '../../../core/spin/observations-of.ts'
import { marksOf } from './truth.ts'

const observed = (marks: Marks) => {
  const found = observationsOf(marks)
  if (!('observations' in found)) throw new Error(found.reason)
  return found.observations
}

describe('marks in the core’s own units', () => {
  it('what nobody says is none, but for a bound of 5000 rpm', () => {
    const marks = marksOf()
    const bare = observed({ ...marks, capture: { fps: 240 }, plausible: undefined })
    expect(bare.capture).toEqual({
      fps: 240,
      relativeUncertainty: null,
      exposureSeconds: null,
      readoutSeconds: null,
      readoutUncertaintySeconds: null,
      focalLengthPx: null,
      tickSeconds: null,
    })
    expect(bare.plausible.maxRateRadPerSecond).toBeCloseTo((5000 * Math.PI) / 30, 9)
    expect(bare).toMatchObject({
      plausible: { sense: null },
      clickPx: null,
      wantedHalfWidthRpm: null,
      withDecay: false,
      ballDiameterMetres: 0.074,
      picture: { widthPx: 960, heightPx: 540 },
    })
  })
  it('what is said is kept', () => {
    const said = observed({
      ...marksOf({ maxRpm: 3000, sense: 'counter-clockwise', statedClickPx: 0.7 }),
      capture: {
        fps: 240,
        relativeUncertainty: 0.001,
        exposureSeconds: 0.0005,
        readoutSeconds: 0.004,
        readoutUncertaintySeconds: 1e-4,
        focalLengthPx: 900,
      },
      wantedHalfWidthRpm: 60,
      withDecay: true,
    })
    expect(said.capture).toMatchObject({
      relativeUncertainty: 0.001,
      exposureSeconds: 0.0005,
      readoutSeconds: 0.004,
      readoutUncertaintySeconds: 1e-4,
      focalLengthPx: 900,
    })
    expect(said.plausible.sense).toBe('counter-clockwise')
    expect(said.plausible.maxRateRadPerSecond).toBeCloseTo(100 * Math.PI, 9)
    expect(said).toMatchObject({ clickPx: 0.7, wantedHalfWidthRpm: 60, withDecay: true })
  })
  it('frames stand in order of their numbers, a time of none is its number by the rate', () => {
    const marks = marksOf()
    marks.frames.reverse()
    const { frames, sightings } = observed(marks)
    expect(frames.map(frame => frame.index)).toEqual(Array.from({ length: 24 }, (_, i) => i))
    expect(frames[6]!.timeSeconds).toBeCloseTo(6 / 240, 12)
    expect(sightings.map(sighting => sighting.frame)).toEqual(frames.map((_, i) => i))
  })
  it('marks go by their place in the list, seen or hidden, a direction in radians', () => {
    const marks = marksOf({ frames: 6 })
    marks.marks = [
      { id: 'dot', symmetryOrder: 1 },
      { id: 'logo', symmetryOrder: 1 },
    ]
    marks.frames[2]!.hidden = ['dot']
    marks.frames[3]!.seen.push({ mark: 'dot', bearingDeg: 90 })
    const { sightings, hidden } = observed(marks)
    expect(hidden).toEqual([{ frame: 2, mark: 0 }])
    expect(sightings[3]).toMatchObject({ kind: 'point', frame: 3, mark: 1 })
    expect(sightings[4]).toEqual({ kind: 'direction', frame: 3, mark: 0, bearingRad: Math.PI / 2 })
  })
  it('a streak is the arc between its ends about the centre, the short way round', () => {
    const marks = marksOf({ frames: 4 })
    // From 170° to −170° about (300, 260): 20°, not 340°.
    const at = (deg: number): [number, number] => [
      300 + 20 * Math.cos((deg * Math.PI) / 180),
      260 + 20 * Math.sin((deg * Math.PI) / 180),
    ]
    const [[fromXPx, fromYPx], [toXPx, toYPx]] = [at(170), at(-170)]
    Object.assign(marks.frames[1]!.seen[0]!, { smear: { fromXPx, fromYPx, toXPx, toYPx } })
    const arcs = observed(marks).sightings.map(one => (one.kind === 'point' ? one.smearArcRad : undefined))
    expect(arcs).toEqual([null, expect.closeTo((20 * Math.PI) / 180, 9), null, null])
  })
})

describe('times', () => {
  /** Written as whole ticks of a clock that ran evenly, or with a sway that is more than a tick. */
  const written = (tick: number, sway = 0, tickSeconds: number | undefined = undefined) =>
    observed(
      marksOf({
        timeOf: i => (i + sway * Math.sin(2.3 * i)) / 240,
        writtenTime: t => Math.round(t / tick) * tick,
        capture: tickSeconds === undefined ? {} : { tickSeconds },
      }),
    )
  it('rounded to 1/600 s of an even clock become that clock’s, and no tick is left', () => {
    const { frames, capture } = written(1 / 600)
    expect(capture.tickSeconds).toBeNull()
    for (const [i, frame] of frames.slice(1).entries())
      expect(frame.timeSeconds - frames[i]!.timeSeconds).toBeCloseTo(1 / 240, 9)
  })
  it('that were uneven stay as they are, with their tick, said or seen', () => {
    for (const { frames, capture } of [written(1 / 1000, 0.3), written(1 / 1000, 0.3, 1 / 1000)]) {
      expect(capture.tickSeconds).toBe(1 / 1000)
      for (const { timeSeconds } of frames)
        expect(Math.abs(timeSeconds * 1000 - Math.round(timeSeconds * 1000))).toBeLessThan(1e-6)
    }
  })
  it('that nobody wrote have no tick', () => {
    expect(observed(marksOf({ capture: { tickSeconds: 1 / 600 } })).capture.tickSeconds).toBeNull()
  })
})

describe('outlines', () => {
  /** A ball that crosses at 600 px/s, its outlines off by so much in every other frame. */
  const flying = (offPx: number, change: (marks: Marks) => void = () => {}) => {
    const marks = marksOf({
      velocity: { xPxPerSecond: 600, yPxPerSecond: -300 },
      statedClickPx: 1,
      frames: 20,
    })
    marks.frames.forEach((frame, i) => {
      frame.outline!.xPx += i % 2 === 0 ? offPx : -offPx
    })
    change(marks)
    return { marks, frames: observed(marks).frames }
  }
  const error = (frames: ReturnType<typeof flying>['frames']) =>
    Math.hypot(...frames.map(({ outline, index }) => outline!.xPx - (300 + (600 * index) / 240))) /
    Math.sqrt(frames.length)
  it('within a few clicks of one smooth path are put on it', () => {
    const { frames } = flying(1)
    expect(error(frames)).toBeLessThan(0.2)
    for (const { outline } of frames) expect(outline!.radiusPx).toBeCloseTo(36, 9)
  })
  it('further off than two and a half clicks are left as they are', () => {
    expect(error(flying(4).frames)).toBeCloseTo(4, 1)
  })
  it('that are missing stay so, and the others keep their own place on the path', () => {
    const { frames } = flying(1, marks => {
      marks.frames[7]!.outline = undefined
      marks.frames[7]!.seen = []
    })
    expect(frames[7]!.outline).toBeNull()
    expect(frames[8]!.outline!.xPx).toBeCloseTo(300 + (600 * 8) / 240, 0)
    expect(frames[8]!.outline!.yPx).toBeCloseTo(260 - (300 * 8) / 240, 1)
  })
  it('of a fast ball with ticks in its times go only part of the way to the path', () => {
    // 6000 px/s for 1/1000 s is 6 px, as a rectangle 1.73 px, beside clicks of √(2/3) px: a share of 0.18 is left.
    const marks = marksOf({
      velocity: { xPxPerSecond: 6000, yPxPerSecond: 0 },
      centre: { xPx: 100, yPx: 260 },
      statedClickPx: 1,
      timeOf: i => (i + 0.3 * Math.sin(2.3 * i)) / 240,
      writtenTime: t => Math.round(t * 1000) / 1000,
    })
    const { frames, capture } = observed(marks)
    expect(capture.tickSeconds).toBe(1 / 1000)
    const share = 1 / (1 + 36 / 12 / (2 / 3))
    expect(share).toBeCloseTo(0.18, 2)
    const moved = frames.map(({ outline }, i) => outline!.xPx - marks.frames[i]!.outline!.xPx)
    // Rounding by half a tick is 3 px, of which the path would take all: this takes a fifth.
    expect(Math.max(...moved.map(Math.abs))).toBeLessThan(3 * 0.25)
    expect(Math.max(...moved.map(Math.abs))).toBeGreaterThan(0.1)
  })
})
