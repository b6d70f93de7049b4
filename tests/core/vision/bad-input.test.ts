import { describe, expect, test } from 'vitest'
import { readFlight } from '../../../core/flight/read-flight.ts'
import { readTrack } from '../../../core/flight/read-track.ts'
import { findTracks } from '../../../core/vision/find/find-tracks.ts'
import type { Luma } from '../../../core/vision/luma.ts'
import { flightOf, painted, spotsOf } from './painted-ball.ts'

const fps = 240
const spots = spotsOf(30, 3)
const frames = flightOf([20, 30, 160], 14, fps, spots, 18)
const lumas = frames.map(({ luma }) => luma)
const wall = painted({
  widthPx: 320,
  heightPx: 140,
  outline: { xPx: -99, yPx: -99, radiusPx: 18 },
  turned: [0, 0, 0],
  spots: [],
  seed: 99,
})
const found = (all: readonly Luma[]) => findTracks(all.map((luma, frame) => ({ frame, luma }))).tracks
const known = {
  capture: { fps },
  picture: { widthPx: 320, heightPx: 140 },
  ball: { diameterMetres: 0.074 },
}

/** One picture above the other. */
const stacked = (above: Luma, below: Luma): Luma => ({
  ...above,
  heightPx: above.heightPx + below.heightPx,
  data: Uint8Array.from([...above.data, ...below.data]),
})
/** The same picture as a camera that was pushed to the right shows it. */
const pushed = (luma: Luma, byPx: number): Luma => ({
  ...luma,
  data: luma.data.map((_, at) => {
    const column = at % luma.widthPx
    return luma.data[at - column + Math.min(column + byPx, luma.widthPx - 1)]!
  }) as Uint8Array,
})

describe('a clip that is not as it should be', () => {
  test('with two balls has two flights', () => {
    const two = lumas.map((luma, i) => stacked(luma, lumas[lumas.length - 1 - i]!))
    expect(found(two)).toHaveLength(2)
  })

  test('whose ball leaves after three frames has none', () => {
    expect(found([...lumas.slice(0, 3), ...Array.from({ length: 14 }, () => wall)])).toEqual([])
  })

  test('whose ball is within four grey levels of the wall has none', () => {
    const alike = lumas.map(luma => ({
      ...luma,
      data: Uint8Array.from(luma.data, (code, at) => {
        const behind = wall.data[at]!
        return behind + Math.max(-4, Math.min(4, code - behind))
      }),
    }))
    expect(found(alike)).toEqual([])
  })

  test('whose camera is bumped by a pixel half way still has its one flight', () => {
    const bumped = lumas.map((luma, i) => (i < 8 ? luma : pushed(luma, 1)))
    expect(found(bumped)).toHaveLength(1)
  })

  test('has no figure where a hand covers the ball from the fourth frame on', () => {
    const covered = lumas.map((luma, i) =>
      i < 4 ? luma : ({ ...luma, data: luma.data.map(() => 120) } as Luma),
    )
    const crops = covered.map((luma, i) => ({ frame: i, timeSeconds: i / fps, luma }))
    const readings = found(covered).map(track => readTrack(track, crops, known)?.reading.rpm ?? null)
    expect(readings.every(rpm => rpm === null)).toBe(true)
  })

  test('of two frames gives a reason and a way out instead of a figure', () => {
    const { reading } = readFlight(frames.slice(0, 2), known)
    expect(reading.rpm).toBeNull()
    expect(reading.reasons.join(' ')).toMatch(/2 frames.*[Ff]ilm/)
  })
})
