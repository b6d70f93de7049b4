import type { FrameWindow } from '../../core/contract/bench.ts'
import type { Clip } from '../../core/contract/clip.ts'
import type { FoundTracks, SeenBefore, SmallFrame } from '../../core/vision/find/find-tracks.ts'
import { heldApart, settled } from '../../core/vision/find/held-apart.ts'
import { joined } from '../../core/vision/find/joined.ts'
import type { Moved } from '../../core/vision/find/moved.ts'
import { seenOnce } from '../../core/vision/find/once.ts'
import type { Track } from '../../core/vision/find/track.ts'
import type { Media } from '../media/media.ts'
import type { Pool } from './pool.ts'
import type { Job } from './read-clip.ts'
import { sharedBytes } from './shared-bytes.ts'

/** Wide enough to see a ball of 20 px radius in a full-HD picture, and a quarter or less of the pixels. */
const smallWidthPx = 480
/** Frames looked at together, and how many the next stretch shares with them: a flight lasts fewer. */
const stretch = 240
const shared = 60

/** Tracks in px of the full picture, in order of time, and what moved. */
export type FoundPart = { tracks: Track[]; moved: Moved }
/** A stretch that a worker looks at: frames from `openFrame` on are in the next one too. */
type Finding = { found: Promise<FoundTracks>; openFrame: number; untilFrame: number }

/**
 * The tracks of a clip in parts, each track as soon as nothing that is still to be decoded can belong to it, so that
 * it can be read meanwhile. Stretch after stretch: each begins with what the one before saw in the frames they share.
 */
export async function* findInClip(
  { media, pool }: { media: Media; pool: Pool },
  path: string,
  clip: Clip,
  window: FrameWindow,
  { signal, progress }: Job,
): AsyncGenerator<FoundPart> {
  const repeats = new Set(clip.timestamps.repeats)
  let frames: SmallFrame[] = []
  let fresh = 0
  let scale = 1
  let finding: Finding | null = null
  let before: SeenBefore | undefined
  let open: Track[] = []

  const find = (): Finding => {
    const found = pool.run('find', { frames, before }, signal)
    // Whoever awaits it hears of a failure.
    found.catch(() => {})
    const untilFrame = frames.at(-1)!.frame
    frames = frames.slice(-shared)
    fresh = 0
    return { found, openFrame: frames[0]!.frame, untilFrame }
  }
  const taken = async ({ found, openFrame, untilFrame }: Finding, isLast = false): Promise<FoundPart> => {
    const { tracks, moved, seen } = await found
    before = { seen: seen.filter(({ frame }) => frame >= openFrame), untilFrame }
    open = seenOnce([...open, ...tracks.map(track => enlarged(track, scale))])
    const done = settled(open, isLast ? Number.POSITIVE_INFINITY : openFrame)
    open = open.filter(track => !done.includes(track))
    const inOrder = done.sort((a, b) => a.seen[0]!.frame - b.seen[0]!.frame)
    return { tracks: heldApart(joined(inOrder)), moved }
  }

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
    if (finding) yield await taken(finding)
    finding = find()
  }
  if (fresh > 0) {
    if (finding) yield await taken(finding)
    finding = find()
  }
  if (finding) yield await taken(finding, true)
}

const enlarged = ({ seen, radiusPx }: Track, scale: number): Track => ({
  radiusPx: radiusPx * scale,
  seen: seen.map(blob => ({ ...blob, xPx: blob.xPx * scale, yPx: blob.yPx * scale })),
})
