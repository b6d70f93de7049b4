import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Reading } from '../../../core/contract/reading.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { ReadClipOptions } from '../../../electron/vision/read-clip.ts'
import { createVision } from '../../../electron/vision/vision.ts'
import type { Scene } from '../../../sample-clips/renderer/scene.ts'
import {
  atRest,
  camera,
  covered,
  crossing,
  empty,
  type Frame,
  pushed,
  stacked,
  trueRpm,
  written,
  yuvOf,
} from './bad-clips.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-bad-input-'))
const media = createMedia()
const vision = createVision(media, { workers: 1 })
const scene = crossing()
let good: Frame[]
let none: Frame[]
beforeAll(() => {
  good = yuvOf(scene)
  none = yuvOf(empty())
})
afterAll(async () => {
  await vision.close()
  await media.close()
  rmSync(folder, { recursive: true, force: true })
})

const knows: ReadClipOptions = {
  captureFps: camera.fps,
  exposureSeconds: camera.exposureSeconds,
  readoutSeconds: 0,
  focalLengthPx: camera.focalLengthPx,
}
async function readingsOf(name: string, frames: Frame[], of: Scene = scene): Promise<Reading[]> {
  const path = await written(folder, { ...of, name }, frames)
  return (await vision.readClip(path, knows)).readings
}
/** No figure of any kind, and what a person is told instead: why, and what to do. */
function saidOf(readings: Reading[]): { why: string; todo: string } {
  expect(readings).toHaveLength(1)
  expect(readings[0]).toMatchObject({ rpm: null, band: null, candidates: [], flag: 'too-few-frames' })
  const [why, todo, ...more] = readings[0]!.reasons
  expect(more).toEqual([])
  return { why: why!, todo: todo! }
}
/** A figure that is there holds the rate that the clip was rendered with. */
function expectTrue({ rpm, band, flag }: Reading): void {
  expect(flag).toBe('clear')
  expect(band!.lowRpm).toBeLessThan(trueRpm)
  expect(band!.highRpm).toBeGreaterThan(trueRpm)
  // A band of a percent and a half still tells paddles apart: common practice, no source.
  expect(band!.highRpm - band!.lowRpm).toBeLessThan(0.015 * rpm!)
}

describe('a clip without a figure says why and what to do', () => {
  test('where there is no ball', async () => {
    const { why, todo } = saidOf(await readingsOf('none', none))
    expect(why).toMatch(/No ball .* nothing .* moves/)
    expect(todo).toMatch(/Check that this is the clip of the hit/)
  })

  test('where the ball turns at rest', async () => {
    const { why, todo } = saidOf(await readingsOf('rest', yuvOf(atRest())))
    expect(why).toMatch(/stays in one place/)
    expect(todo).toMatch(/part of the clip in which the ball flies/)
  })

  test('where the ball leaves after three frames', async () => {
    const { why, todo } = saidOf(await readingsOf('leaves', [...good.slice(-7, -4), ...none.slice(3)]))
    expect(why).toMatch(/in 3 frames only/)
    expect(todo).toMatch(/crosses the whole picture/)
  })

  test('where the ball has the brightness of the wall', async () => {
    // An eighth of the light's step between wall and ball is left.
    const faint = good.map((frame, i) => frame.map((code, k) => none[i]![k]! + (code - none[i]![k]!) / 8))
    const { why, todo } = saidOf(await readingsOf('faint', faint))
    expect(why).toMatch(/nowhere can a whole ball be made out/)
    expect(todo).toMatch(/much lighter or much darker than the ball/)
  })

  test('where a paddle covers the ball', async () => {
    const { why, todo } = saidOf(await readingsOf('covered', yuvOf(covered())))
    expect(why).toMatch(/nowhere can a whole ball be made out/)
    expect(todo).toMatch(/Keep hands and paddles from between camera and ball/)
  })

  test('where a conversion repeated every third frame, and so made the rate up', async () => {
    // Filmed at 180 fps and filled up to the 240 that the person set: it lasts as long, its steps are uneven.
    const filmed = yuvOf(crossing({ camera: { ...camera, fps: 180 } }))
    const filled = filmed.flatMap((frame, i) => (i % 3 === 2 ? [frame, frame] : [frame]))
    const { why, todo } = saidOf(await readingsOf('converted', filled))
    expect(why).toMatch(/only repeating the picture before/)
    expect(todo).toMatch(/file that the camera wrote/)
  })

  test('of two frames', async () => {
    const { why, todo } = saidOf(await readingsOf('two-frames', good.slice(10, 12)))
    expect(why).toMatch(/2 frames: too few/)
    expect(todo).toMatch(/the whole flight in it/)
  })
})

describe('a clip that can still be read', () => {
  test('with two balls has two readings, each its own', async () => {
    const tall = { ...scene, camera: { ...camera, heightPx: 2 * camera.heightPx } }
    const readings = await readingsOf('two', stacked(good, [...good].reverse()), tall)
    expect(readings.map(({ sense }) => sense).sort()).toEqual(['clockwise', 'counter-clockwise'])
    for (const reading of readings) expectTrue(reading)
  })

  test('whose camera is bumped on the way is read from the frames that agree', async () => {
    // From the middle on it swings by up to 20 px and comes to rest elsewhere.
    const bumped = good.map((frame, i) => {
      const swing = 2 * Math.round(8 * Math.exp((18 - i) / 6) * Math.cos((i - 18) / 1.5))
      return i < 18 ? frame : pushed(frame, swing + 4, 2)
    })
    const [reading, ...more] = await readingsOf('bumped', bumped)
    expect(more).toEqual([])
    expectTrue(reading!)
  })

  test.each([50, 60])('under lamps on mains of %d Hz, which flicker twice as often', async mainsHz => {
    const lit = yuvOf(crossing({ flicker: { mainsHz, depth: 0.15 } }))
    const [reading, ...more] = await readingsOf(`flicker-${mainsHz}`, lit)
    expect(more).toEqual([])
    expectTrue(reading!)
    expect(reading!.framesUsed).toBeGreaterThan(30)
  })

  test('with two frames that the camera filled up by the one before leaves these out', async () => {
    const filled = good.map((frame, i) => (i === 12 || i === 23 ? good[i - 1]! : frame))
    const [reading, ...more] = await readingsOf('filled', filled)
    expect(more).toEqual([])
    expectTrue(reading!)
  })

  test('with an orange ball before grey paper, hardly darker than it, keeps its figure', async () => {
    const alike = { ball: { ...scene.ball, colour: 'orange' as const }, backdrop: 'paper' as const }
    const [reading, ...more] = await readingsOf('alike', yuvOf(crossing({ ...alike, lamp: 'two-floods' })))
    expect(more).toEqual([])
    expectTrue(reading!)
  })
})
