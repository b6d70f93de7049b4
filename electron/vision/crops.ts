import type { FrameWindow } from '../../core/contract/bench.ts'
import type { Clip } from '../../core/contract/clip.ts'
import type { CropFrame } from '../../core/vision/find/outline-flight.ts'
import type { Track } from '../../core/vision/find/track.ts'
import type { Media } from '../media/media.ts'
import { sharedBytes } from './shared-bytes.ts'

/** Frames beyond a track on either side: the ball may be whole there still, and the background is bare. */
const beyond = 6
const mostBytes = 160 * 1024 * 1024

/** Full-size brightness around the path of one track, frames that repeat the one before left out. */
export async function cropsOf(
  media: Media,
  path: string,
  clip: Clip,
  track: Track,
  window: FrameWindow,
  times: readonly number[],
  signal?: AbortSignal,
): Promise<CropFrame[]> {
  const { seen, radiusPx } = track
  const margin = 2.5 * radiusPx + 12
  const xs = seen.map(blob => blob.xPx)
  const ys = seen.map(blob => blob.yPx)
  const reach = (values: number[], size: number): [from: number, size: number] => {
    // The path goes on beyond its ends, by as much as the ball moves in `beyond` frames.
    const step = (Math.max(...values) - Math.min(...values)) / Math.max(values.length - 1, 1)
    const from = Math.max(0, Math.floor(Math.min(...values) - margin - beyond * step))
    return [from, Math.min(size, Math.ceil(Math.max(...values) + margin + beyond * step)) - from]
  }
  const [xPx, widthPx] = reach(xs, clip.widthPx)
  const [yPx, heightPx] = reach(ys, clip.heightPx)
  const most = Math.max(12, Math.floor(mostBytes / (widthPx * heightPx)))
  const first = Math.max(window.fromFrame, seen[0]!.frame - beyond)
  const fromFrame = first
  const toFrame = Math.min(window.toFrame, seen.at(-1)!.frame + beyond, first + most - 1)
  const repeats = new Set(clip.timestamps.repeats)
  const crops: CropFrame[] = []
  const crop = { xPx, yPx, widthPx, heightPx }
  for await (const { frame, data } of media.lumaWindow(path, { fromFrame, toFrame }, { crop, signal })) {
    if (!repeats.has(frame))
      crops.push({ frame, timeSeconds: times[frame]!, luma: { ...crop, data: sharedBytes(data) } })
  }
  return crops
}
