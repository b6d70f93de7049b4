import type { ReadoutWay } from '../../core/contract/readout-check.ts'
import { EdgeReadout } from '../../core/planning/readout-check/edge-readout.ts'
import { lampReadout } from '../../core/planning/readout-check/lamp-readout.ts'
import { noReadout, type ReadoutFound } from '../../core/planning/readout-check/readout-found.ts'
import { spinReadout } from '../../core/planning/readout-check/spin-readout.ts'
import { timestampPattern } from '../../core/timing/timestamp-pattern.ts'
import type { JobOptions, Media } from './media.ts'

/** What a clip shows, and the true rate at which it was filmed. */
export type ReadoutAsk = { captureFps: number } & (
  | { way: 'spin' }
  | { way: 'edge' }
  | { way: 'lamp'; lampHertz: number }
)

const mostFrames = 1200
/** Bands and patterns are broad; an edge is followed in finer pictures. */
const widthFor: Record<ReadoutWay, number> = { lamp: 160, spin: 160, edge: 480 }
/** Fine beside any frame: the file's own time base is not needed to see a gap. */
const timeBaseSeconds = 1e-5

/** The readout of the camera that filmed a clip, from its first 1200 frames. Rejects as `Media` does. */
export async function readoutOfClip(
  media: Media,
  path: string,
  ask: ReadoutAsk,
  job: JobOptions,
): Promise<ReadoutFound> {
  const times = (await media.timestamps(path, job)).slice(0, mostFrames)
  const gap = timestampPattern(times, timeBaseSeconds).gaps[0]
  if (gap)
    return noReadout(
      `Frames are missing after frame ${gap.afterFrame}; a readout needs them all.`,
      'Film again, or give the file as the camera wrote it.',
    )
  const window = { fromFrame: 0, toFrame: times.length - 1 }
  const pictures = media.lumaWindow(path, window, { ...job, maxWidthPx: widthFor[ask.way] })
  if (ask.way === 'edge') {
    const edge = new EdgeReadout(ask.captureFps)
    for await (const picture of pictures) edge.see({ ...picture, xPx: 0, yPx: 0 })
    return edge.found()
  }
  let widthPx = 0
  const seen: Uint8Array[] = []
  for await (const picture of pictures) {
    widthPx = picture.widthPx
    seen.push(picture.data)
  }
  if (ask.way === 'spin') return spinReadout(seen, widthPx, ask.captureFps)
  const light = seen.map(picture => rowMeans(picture, widthPx))
  return lampReadout(light, ask.lampHertz, ask.captureFps)
}

function rowMeans(picture: Uint8Array, widthPx: number): Float64Array {
  const means = new Float64Array(picture.length / widthPx)
  picture.forEach((value, i) => {
    means[Math.floor(i / widthPx)]! += value / widthPx
  })
  return means
}
