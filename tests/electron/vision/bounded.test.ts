import { describe, expect, test } from 'vitest'
import type { Clip } from '../../../core/contract/clip.ts'
import type { Track } from '../../../core/vision/find/track.ts'
import type { LumaOptions, Media } from '../../../electron/media/media.ts'
import { createLanes } from '../../../electron/service/lanes.ts'
import type { JobName, Jobs } from '../../../electron/vision/jobs.ts'
import type { Pool } from '../../../electron/vision/pool.ts'
import { readClip } from '../../../electron/vision/read-clip.ts'

const [widthPx, heightPx] = [64, 36]
const workers = 2

const clipOf = (frames: number): Clip => ({
  schema: 'whorl.clip/1',
  path: 'long.mp4',
  sha256: '',
  bytes: 0,
  container: 'mp4',
  codec: 'h264',
  pixelFormat: 'yuv420p',
  widthPx,
  heightPx,
  rotationDeg: 0,
  frames,
  durationSeconds: frames / 240,
  playbackFps: 240,
  timestamps: { tickSeconds: null, even: true, gaps: [], repeats: [] },
  capture: { fps: 240, source: 'timestamps', relativeUncertainty: 0.001 },
  warnings: [],
})

/** A ball on its way through ten frames from `first` on. */
const trackFrom = (first: number): Track => ({
  radiusPx: 4,
  seen: Array.from({ length: 10 }, (_, i) => ({
    frame: first + i,
    xPx: 5 + 5 * i,
    yPx: 18,
    widthPx: 8,
    heightPx: 8,
    areaPx: 50,
  })),
})

/** Reads a clip of so many frames and counts the pictures in memory: those handed out, until their order is done. */
async function readLong(frames: number) {
  const held = { small: 0, full: 0 }
  const most = { small: 0, full: 0, order: 0 }
  const count = (kind: 'small' | 'full', by: number) => {
    held[kind] += by
    most[kind] = Math.max(most[kind], held[kind])
  }
  let decoded = 0
  const media = {
    timestamps: async () => Array.from({ length: frames }, (_, i) => i / 240),
    async *lumaWindow(
      _: string,
      { fromFrame, toFrame }: { fromFrame: number; toFrame: number },
      o: LumaOptions,
    ) {
      for (let frame = fromFrame; frame <= toFrame; frame++) {
        const size = o.crop ?? { widthPx, heightPx }
        count(o.crop ? 'full' : 'small', 1)
        if (!o.crop) decoded++
        yield { frame, ...size, data: new Uint8Array(size.widthPx * size.heightPx) }
      }
    },
  } as unknown as Media
  const pool = {
    size: workers,
    run: async <N extends JobName>(name: N, asks: Jobs[N]['asks']): Promise<Jobs[N]['gives']> => {
      const pictures = 'crops' in asks ? asks.crops.length : asks.frames.length
      most.order = Math.max(most.order, pictures)
      // Whoever can go on meanwhile does.
      await new Promise(resolve => setTimeout(resolve, 2))
      if ('crops' in asks) count('full', -pictures)
      // The sixty that the next stretch begins with stay.
      else count('small', -(pictures - 60))
      const tracks = 'frames' in asks ? [trackFrom(asks.frames[70]?.frame ?? 0)] : []
      const moved = { moving: [], reach: 0, largest: 0 }
      return (name === 'find' ? { tracks, moved, seen: [] } : null) as Jobs[N]['gives']
    },
  } as unknown as Pool
  await readClip({ media, pool, inLane: createLanes(workers) }, 'long.mp4', { clip: clipOf(frames) })
  return { most, decoded }
}

describe('pictures in memory', () => {
  test('are as many for a clip of two minutes as for one of ten seconds', async () => {
    const [short, long] = [await readLong(2400), await readLong(28_800)]
    expect([short.decoded, long.decoded]).toEqual([2400, 28_800])
    // A stretch of 240 for each worker, and the next one being filled.
    const bound = (workers + 1) * 240
    expect(long.most.order).toBeLessThanOrEqual(240)
    expect(short.most.small).toBeGreaterThan(240)
    expect(short.most.small).toBeLessThanOrEqual(bound)
    expect(long.most.small).toBeLessThanOrEqual(bound)
  })

  test('of full size are those of one flight for each worker, however many flights there are', async () => {
    const { most } = await readLong(28_800)
    // Ten frames of a flight and six more on either side.
    expect(most.full).toBeGreaterThan(0)
    expect(most.full).toBeLessThanOrEqual(workers * 22)
  })
})
