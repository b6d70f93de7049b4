import { describe, expect, it } from 'vitest'
import type { Edit } from '../../../core/contract/bench.ts'
import { benchStore } from '../../../renderer/screens/bench/state/bench-store.ts'
import { moveCrosshair } from '../../../renderer/screens/bench/state/by-keys.ts'
import { goTo } from '../../../renderer/screens/bench/state/going.ts'
import { followMark, markHidden } from '../../../renderer/screens/bench/state/marking.ts'
import { placeAt, placeHere, takeOff } from '../../../renderer/screens/bench/state/place.ts'
import { dragOutline, dropOutline, workOnRim } from '../../../renderer/screens/bench/state/rim.ts'
import { outlineOf, sightingOf } from '../../../renderer/screens/bench/state/seen.ts'
import { benchHost } from './bench-host.ts'
import { logoIn, outlineIn, turningBall } from './turning-ball.ts'

const settle = () => new Promise(done => setTimeout(done, 5))
const outlines = [12, 24, 35].map(frame => ({ frame, ...outlineIn(turningBall, frame) }))

async function opened(given: Parameters<typeof benchHost>[0] = { marks: { outlines } }) {
  const host = benchHost(given)
  const hit = await host.call('hits.open', { hitId: 'hit-1' })
  const { clip, timestampsSeconds } = await host.call('clips.open', { clipId: 'clip-1' })
  const session = (await host.call('sessions.list', {}))[0]!
  return { host, store: benchStore(host, { hit, clip, session, timestampsSeconds }, work => work()) }
}
type Opened = Awaited<ReturnType<typeof opened>>

const markAll = ({ store }: Opened, frames: number) => {
  for (let i = 0; i < frames; i++) placeAt(store, logoIn(turningBall, store.getState().frame))
}

describe('marking a hit', () => {
  it('shows a mark at once, brings the next frame, and saves behind it in order', async () => {
    const bench = await opened()
    markAll(bench, 3)
    const { marks, frame, saving } = bench.store.getState()
    expect(marks.sightings.map(seen => seen.frame)).toEqual([12, 13, 14])
    expect(frame).toBe(15)
    expect(saving).toBe(true)
    await settle()
    expect(bench.host.marks().sightings.map(seen => seen.frame)).toEqual([12, 13, 14])
    expect(bench.store.getState().saving).toBe(false)
  })

  it('reads the spin from the second mark on, and the truth lies in the band', async () => {
    const bench = await opened()
    markAll(bench, 1)
    expect(bench.store.getState().live.reading?.rpm ?? null).toBeNull()
    markAll(bench, 1)
    expect(bench.store.getState().live.reading?.rpm).toBeGreaterThan(0)
    markAll(bench, 22)
    const reading = bench.store.getState().live.reading!
    expect(reading.band!.lowRpm).toBeLessThan(turningBall.rpm)
    expect(reading.band!.highRpm).toBeGreaterThan(turningBall.rpm)
    expect(reading.sense).toBe('clockwise')
  })

  it('expects the mark in a frame that was not marked where it truly is', async () => {
    const bench = await opened()
    markAll(bench, 8)
    const { live, marks } = bench.store.getState()
    const expected = live.expected(marks.marks[0]!, 26)!
    const truth = logoIn(turningBall, 26)
    expect(Math.hypot(expected.xPx! - truth.xPx, expected.yPx! - truth.yPx)).toBeLessThan(1)
  })

  it('lets Enter take the place that the fit expects, and arrows move it', async () => {
    const bench = await opened()
    markAll(bench, 6)
    const { frame } = bench.store.getState()
    moveCrosshair(bench.store, 1, 0, false)
    moveCrosshair(bench.store, 0, -1, true)
    placeHere(bench.store)
    const truth = logoIn(turningBall, frame)
    const seen = sightingOf(bench.store.getState(), frame, 'logo')
    expect(seen).toMatchObject({ kind: 'point' })
    if (seen?.kind !== 'point') return
    expect(seen.xPx - truth.xPx).toBeCloseTo(0.5, 0)
    expect(seen.yPx - truth.yPx).toBeCloseTo(-5, 0)
  })

  it('takes hidden as a mark, and takes a mark off again', async () => {
    const bench = await opened()
    markHidden(bench.store)
    expect(bench.store.getState().marks.sightings).toEqual([{ kind: 'hidden', frame: 12, mark: 'logo' }])
    goTo(bench.store, 12)
    takeOff(bench.store)
    expect(bench.store.getState().marks.sightings).toEqual([])
  })

  it('turns the line of a direction mark by keys and lays it by Enter', async () => {
    const marks = { outlines, marks: [{ id: 'logo', kind: 'direction' as const, symmetryOrder: 2 }] }
    const bench = await opened({ marks })
    moveCrosshair(bench.store, -1, 0, false)
    moveCrosshair(bench.store, 1, 0, true)
    placeHere(bench.store)
    expect(bench.store.getState().marks.sightings).toEqual([
      { kind: 'direction', frame: 12, mark: 'logo', bearingDeg: 9 },
    ])
  })
})

describe('giving the outline', () => {
  it('leads from three rim points at the first frame to the last, the middle and the mark', async () => {
    const { store } = await opened({})
    for (const frame of [12, 35]) {
      expect(store.getState().frame).toBe(frame)
      const { xPx, yPx, radiusPx } = outlineIn(turningBall, frame)
      placeAt(store, { xPx: xPx + 8, yPx: yPx - 5 })
      for (const rad of [0.2, 2.4, 4.3])
        placeAt(store, { xPx: xPx + radiusPx * Math.cos(rad), yPx: yPx + radiusPx * Math.sin(rad) })
      const placed = store.getState().marks.outlines.find(outline => outline.frame === frame)!
      expect(placed.xPx).toBeCloseTo(xPx, 6)
      expect(placed.radiusPx).toBeCloseTo(radiusPx, 6)
    }
    expect(store.getState()).toMatchObject({ frame: 24, mode: 'outline', rim: null })
    placeHere(store)
    expect(store.getState()).toMatchObject({ frame: 12, mode: 'mark' })
    expect(store.getState().marks.outlines.map(outline => outline.frame)).toEqual([12, 24, 35])
  })

  it('saves a dragged circle once, where it was let go', async () => {
    const { host, store } = await opened()
    workOnRim(store)
    const from = outlineOf(store.getState(), 12)!
    for (const dx of [1, 2, 3]) dragOutline(store, circle => ({ ...circle, xPx: circle.xPx + dx }))
    expect(outlineOf(store.getState(), 12)!.xPx).toBeCloseTo(from.xPx + 3, 9)
    dropOutline(store)
    await settle()
    expect(host.seen.filter(call => call.name === 'hits.edit')).toHaveLength(1)
    expect(host.marks().outlines[0]!.xPx).toBeCloseTo(from.xPx + 3, 9)
  })

  it('says so where three points lie on a line, and takes three new ones', async () => {
    const { store } = await opened({})
    placeAt(store, { xPx: 100, yPx: 100 })
    for (const x of [100, 120, 140]) placeAt(store, { xPx: x, yPx: 90 })
    expect(store.getState().problem?.place).toBe('stage')
    expect(store.getState().rim?.points).toEqual([])
    expect(store.getState().marks.outlines).toEqual([])
  })
})

describe('a step that the host refuses', () => {
  it('is taken back with all that was built on it, and told where it was made', async () => {
    const refuse = (edit: Edit) => edit.kind === 'place-sighting' && edit.sighting.frame === 13
    const bench = await opened({ marks: { outlines }, refuse })
    markAll(bench, 4)
    await settle()
    const { marks, problem, saving } = bench.store.getState()
    expect(marks.sightings.map(seen => seen.frame)).toEqual([12])
    expect(problem).toMatchObject({ place: 'stage', problem: { code: 'disk-full' } })
    expect(saving).toBe(false)
    expect(bench.host.marks().sightings.map(seen => seen.frame)).toEqual([12])
  })

  it('that makes no sense is never sent', async () => {
    const { host, store } = await opened()
    expect(store.getState().edit('marks', { kind: 'remove-mark', mark: 'logo' })).toBe(false)
    await settle()
    expect(host.seen.some(call => call.name === 'hits.edit')).toBe(false)
    expect(store.getState().problem).toMatchObject({ place: 'marks', problem: { code: 'edit-refused' } })
  })
})

describe('undo and redo', () => {
  it('go back and forth over the host’s own steps', async () => {
    const bench = await opened()
    markAll(bench, 2)
    await settle()
    bench.store.getState().undo()
    await settle()
    expect(bench.store.getState().marks.sightings.map(seen => seen.frame)).toEqual([12])
    expect(bench.store.getState().canRedo).toBe(true)
    bench.store.getState().redo()
    await settle()
    expect(bench.store.getState().marks.sightings.map(seen => seen.frame)).toEqual([12, 13])
  })
})

describe('a capture rate that nobody knows', () => {
  it('leaves the marks without a reading until it is given', async () => {
    const bench = await opened({ marks: { outlines }, captureFps: null })
    followMark(bench.store)
    markAll(bench, 12)
    const { live, clip, setClip } = bench.store.getState()
    expect(live.reading).toBeNull()
    expect(live.reason).toMatch(/capture rate/)
    const capture = { fps: 240, source: 'user' as const, relativeUncertainty: null }
    setClip({ ...clip, probe: { ...clip.probe!, capture } })
    const { lowRpm, highRpm } = bench.store.getState().live.reading!.band!
    expect(lowRpm).toBeLessThan(turningBall.rpm)
    expect(highRpm).toBeGreaterThan(turningBall.rpm)
  })
})
