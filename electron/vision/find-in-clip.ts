import type { FrameWindow } from '../../core/contract/bench.ts'
import type { Clip } from '../../core/contract/clip.ts'
import type { FoundTracks, SmallFrame } from '../../core/vision/find/find-tracks.ts'
import { heldApart } from '../../core/vision/find/held-apart.ts'
import { movedInBoth, nothingMoved } from '../../core/vision/find/moved.ts'
import { seenOnce } from '../../core/vision/find/once.ts'
import type { Media } from '../media/media.ts'
import type { Pool } from './pool.ts'
import type { Job } from './read-clip.ts'
import { sharedBytes } from './shared-bytes.ts'

/** Wide enough to see a ball of 20 px radius in a full-HD picture, and a quarter or less of the pixels. */
const smallWidthPx = 480
/** Frames looked at together, and how many the next stretch shares with them: a flight lasts fewer. */
const stretch = 240
const shared = 60

/** Tracks of a whole clip in px of the full picture, in order of time, and what moved in it. */
export async function findInClip(
  { media, pool }: { media: Media; pool: Pool },
  path: string,
  clip: Clip,
  window: FrameWindow,
  { signal, progress }: Job,
): Promise<FoundTracks> {
  const repeats = new Set(clip.timestamps.repeats)
  const finding: Promise<FoundTracks>[] = []
  let frames: SmallFrame[] = []
  const find = () => {
    const found = pool.run('find', { frames: [...frames] }, signal)
    // Whoever awaits all of them hears of a failure.
    found.catch(() => {})
    finding.push(found)
  }
  let fresh = 0
  let scale = 1
  for await (const { frame, widthPx, heightPx, data } of media.lumaWindow(path, window, {
    maxWidthPx: smallWidthPx,
    signal,
    progress,
  })) {
    scale = clip.widthPx / widthPx
    if (repeats.has(frame)) continue
    frames.push({ frame, luma: { xPx: 0, yPx: 0, widthPx, heightPx, data: sharedBytes(data) } })
    fresh++
    if (frames.length < stretch) continue
    if (finding.length >= pool.size) await finding[finding.length - pool.size]
    find()
    frames = frames.slice(-shared)
    fresh = 0
  }
  if (fresh > 0) find()
  const found = await Promise.all(finding)
  const tracks = found
    .flatMap(one => one.tracks)
    .map(track => ({
      radiusPx: track.radiusPx * scale,
      seen: track.seen.map(blob => ({ ...blob, xPx: blob.xPx * scale, yPx: blob.yPx * scale })),
    }))
    .sort((a, b) => a.seen[0]!.frame - b.seen[0]!.frame)
  return {
    tracks: heldApart(seenOnce(tracks)),
    moved: found.map(one => one.moved).reduce(movedInBoth, nothingMoved),
  }
}
