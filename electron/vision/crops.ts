import type { FrameWindow } from '../../core/contract/bench.ts'
import type { Clip } from '../../core/contract/clip.ts'
import type { CropFrame } from '../../core/vision/find/outline-flight.ts'
import type { Track } from '../../core/vision/find/track.ts'
import type { Crop, Media } from '../media/media.ts'
import { sharedPart } from './shared-bytes.ts'

/** Frames beyond a track on either side: the ball may be whole there still, and the background is bare. */
const beyond = 6
const mostBytes = 160 * 1024 * 1024
/** With no more frames between, decoding on is cheaper than again from a key picture: half a second of 240 fps. */
const near = 120

/** The part of the picture around a track's path, and the frames in which it is looked at. */
export type View = { track: Track; crop: Crop; window: FrameWindow }

export function viewOf(track: Track, clip: Clip, window: FrameWindow): View {
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
  const fromFrame = Math.max(window.fromFrame, seen[0]!.frame - beyond)
  const toFrame = Math.min(window.toFrame, seen.at(-1)!.frame + beyond, fromFrame + most - 1)
  return { track, crop: { xPx, yPx, widthPx, heightPx }, window: { fromFrame, toFrame } }
}

/** Neighbours whose pictures are decoded together, and how many times the memory for one flight they take. */
export type ViewGroup = { views: View[]; shares: number }

/**
 * Views in order of time, together where they are so near that one decoding serves them: a paddle and the ball it hits
 * mostly. A group takes no more than `mostShares` times the memory for one.
 */
export function viewsTogether(views: readonly View[], mostShares: number): ViewGroup[] {
  const groups: View[][] = []
  for (const view of views) {
    const group = groups.at(-1) ?? []
    const isNear = group.length > 0 && view.window.fromFrame - unitedWindow(group).toFrame <= near
    if (isNear && bytesOf([...group, view]) <= mostShares * mostBytes) group.push(view)
    else groups.push([view])
  }
  return groups.map(group => ({ views: group, shares: Math.ceil(bytesOf(group) / mostBytes) }))
}

/** Full-size brightness for each view, decoded once for all; frames that repeat the one before left out. */
export async function cropsOf(
  media: Media,
  path: string,
  clip: Clip,
  views: readonly View[],
  times: readonly number[],
  signal?: AbortSignal,
): Promise<CropFrame[][]> {
  const repeats = new Set(clip.timestamps.repeats)
  const crops = views.map((): CropFrame[] => [])
  const crop = unitedCrop(views)
  for await (const { frame, data } of media.lumaWindow(path, unitedWindow(views), { crop, signal })) {
    if (repeats.has(frame)) continue
    for (const [i, view] of views.entries())
      if (frame >= view.window.fromFrame && frame <= view.window.toFrame) {
        const luma = { ...view.crop, data: sharedPart(data, crop, view.crop) }
        crops[i]!.push({ frame, timeSeconds: times[frame]!, luma })
      }
  }
  return crops
}

const bytesOf = (views: readonly View[]): number =>
  views.reduce((sum, { crop, window }) => {
    return sum + crop.widthPx * crop.heightPx * (window.toFrame - window.fromFrame + 1)
  }, 0)

const unitedWindow = (views: readonly View[]): FrameWindow => ({
  fromFrame: Math.min(...views.map(({ window }) => window.fromFrame)),
  toFrame: Math.max(...views.map(({ window }) => window.toFrame)),
})

function unitedCrop(views: readonly View[]): Crop {
  const crops = views.map(({ crop }) => crop)
  const xPx = Math.min(...crops.map(crop => crop.xPx))
  const yPx = Math.min(...crops.map(crop => crop.yPx))
  return {
    xPx,
    yPx,
    widthPx: Math.max(...crops.map(crop => crop.xPx + crop.widthPx)) - xPx,
    heightPx: Math.max(...crops.map(crop => crop.yPx + crop.heightPx)) - yPx,
  }
}
