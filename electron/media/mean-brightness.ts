import type { FrameWindow } from '../../core/contract/bench.ts'
import type { JobOptions, Media } from './media.ts'

/** Averaging down to this keeps the light and costs little. */
const widthPx = 64

/** The mean brightness of each frame of a window, grey levels. */
export async function meanBrightness(
  media: Media,
  path: string,
  window: FrameWindow,
  job: JobOptions,
): Promise<number[]> {
  const means: number[] = []
  for await (const { data } of media.lumaWindow(path, window, { ...job, maxWidthPx: widthPx }))
    means.push(data.reduce((sum, value) => sum + value, 0) / data.length)
  return means
}
