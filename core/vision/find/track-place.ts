import type { PictureFacts } from './by-appearance.ts'
import type { Skew } from './outline.ts'
import type { Track } from './track.ts'

/** Between the blobs evenly, beyond them straight on. */
export function placeIn(seen: Track['seen'], frame: number): { xPx: number; yPx: number } {
  let k = seen.findIndex(blob => blob.frame >= frame)
  if (k === -1) k = seen.length - 1
  if (seen[k]!.frame === frame) return seen[k]!
  // A blob that the picture's edge has cut misleads: beyond the ends the path a few frames further in counts.
  const isOutside = frame < seen[0]!.frame || frame > seen.at(-1)!.frame
  const [a, b] = isOutside
    ? k === 0
      ? [seen[0]!, seen[Math.min(3, seen.length - 1)]!]
      : [seen[Math.max(seen.length - 4, 0)]!, seen.at(-1)!]
    : [seen[k - 1]!, seen[k]!]
  const share = (frame - a.frame) / (b.frame - a.frame)
  return { xPx: a.xPx + share * (b.xPx - a.xPx), yPx: a.yPx + share * (b.yPx - a.yPx) }
}

/** What the sensor's readout does to a ball that moves as the track does. */
export function skewOf(seen: Track['seen'], { readoutSeconds, heightPx, fps }: PictureFacts): Skew {
  const [a, b] = [seen[0]!, seen.at(-1)!]
  const perRow = ((readoutSeconds / heightPx) * fps) / (b.frame - a.frame)
  const y = (b.yPx - a.yPx) * perRow
  return { x: ((b.xPx - a.xPx) * perRow) / (1 - y), y: y / (1 - y) }
}
