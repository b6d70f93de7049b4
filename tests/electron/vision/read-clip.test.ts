import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import { afterAll, describe, expect, test } from 'vitest'
import { createMedia } from '../../../electron/media/create-media.ts'
import { places } from '../../../electron/service/places.ts'
import { createVision } from '../../../electron/vision/vision.ts'

const media = createMedia()
const started: Worker[] = []
const start = () => {
  const worker = new Worker(join(places.program, 'dist', 'host', 'vision.worker.js'))
  started.push(worker)
  return worker
}
const vision = createVision(media, { workers: 2, start })
afterAll(async () => {
  await vision.close()
  await media.close()
})
const sample = (name: string) => join(places.samples, `${name}.mp4`)
const truthOf = (name: string) => JSON.parse(readFileSync(join(places.samples, `${name}.truth.json`), 'utf8'))
const camera = { captureFps: 240, exposureSeconds: 1 / 2000, readoutSeconds: 0, focalLengthPx: 1300 }

describe('reading a clip', () => {
  test('finds the ball and its spin, within its band and to a tenth of a percent', async () => {
    const { readings, outlines } = await vision.readClip(sample('fast-240-a'), camera)
    const [flight] = truthOf('fast-240-a').flights
    expect(readings).toHaveLength(1)
    const [{ rpm, band, method, flag }] = readings as [(typeof readings)[0]]
    expect(method).toBe('surface')
    expect(flag).toBe('clear')
    expect(Math.abs(rpm! / flight.rpm - 1)).toBeLessThan(0.001)
    expect(band!.lowRpm).toBeLessThan(flight.rpm)
    expect(band!.highRpm).toBeGreaterThan(flight.rpm)
    expect(outlines[0]!.length).toBeGreaterThanOrEqual(flight.frames.length)
  })

  test('reads both flights of a contact, and finds the contact to the frame', async () => {
    const { readings, contacts } = await vision.readClip(sample('contact-240'), camera)
    const { flights, contact } = truthOf('contact-240')
    expect(readings.map(({ rpm }) => Math.round(rpm! / 10))).toEqual(
      flights.map(({ rpm }: { rpm: number }) => Math.round(rpm / 10)),
    )
    expect(Math.abs(contacts[0]!.lastFrameBefore - contact.lastFrameBefore)).toBeLessThanOrEqual(1)
  })

  test('says so, with a way out, where no ball flies', async () => {
    const { readings } = await vision.readClip(sample('fast-240-a'), {
      ...camera,
      window: { fromFrame: 0, toFrame: 3 },
    })
    expect(readings).toHaveLength(1)
    expect(readings[0]).toMatchObject({ rpm: null, band: null, flag: 'too-few-frames' })
    expect(readings[0]!.reasons).toHaveLength(2)
  })

  test('stops when it is cancelled, and goes on with the next', async () => {
    const controller = new AbortController()
    const progress = () => controller.abort()
    const cancelled = vision.readClip(sample('fast-240-b'), camera, { signal: controller.signal, progress })
    await expect(cancelled).rejects.toMatchObject({ code: 'cancelled' })
  })

  test('replaces a worker that was killed', async () => {
    await Promise.all(started.map(worker => worker.terminate()))
    const before = started.length
    const { readings } = await vision.readClip(sample('rolling-240'), {
      ...camera,
      focalLengthPx: 1080,
      readoutSeconds: 0.0039,
    })
    expect(readings[0]!.rpm).toBeGreaterThan(1700)
    expect(started.length).toBeGreaterThan(before)
  })
})
