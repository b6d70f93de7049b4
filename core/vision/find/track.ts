import { median } from '../../numerics/median.ts'
import type { Blob } from './blobs.ts'

export type Seen = Blob & { frame: number }
/**
 * One flight as the whole pictures show it: the ball's middle in some frames, and about how large it is. It is not
 * looked for before `fromFrame` or after `toFrame`, where a contact bounds it.
 */
export type Track = { seen: Seen[]; radiusPx: number; fromFrame?: number; toFrame?: number }

/** Frames that a flight takes at the least. */
export const fewestSeen = 4
const mostMissing = 3
/** A ball that goes less far than this, in radii, counts as at rest. */
const leastWay = 1.5

/**
 * Links moving blobs into flights: from every pair of like blobs in neighbouring frames, on along a path whose
 * velocity changes slowly, both ways in time; longest first, each blob in one flight alone. What goes less far
 * than `leastWayPx` is no flight: the holes of a ball that turns where it lies.
 */
export function tracksOf(blobs: readonly Seen[], leastWayPx: number): Track[] {
  const byFrame = new Map<number, Seen[]>()
  for (const blob of blobs) byFrame.set(blob.frame, [...(byFrame.get(blob.frame) ?? []), blob])
  const tracks: Track[] = []
  const used = new Set<Seen>()
  for (;;) {
    let best: Seen[] = []
    for (const a of blobs) {
      if (used.has(a) || !isRound(a)) continue
      for (const b of byFrame.get(a.frame + 1) ?? []) {
        if (used.has(b) || !isRound(b) || !isLike(a, b) || step(a, b) > 5 * radiusOf(a)) continue
        const path = grown([a, b], byFrame, used)
        if (path.length > best.length) best = path
      }
    }
    if (best.length < fewestSeen) return tracks
    for (const blob of best) used.add(blob)
    const radiusPx = median(best.map(radiusOf))
    if (step(best[0]!, best.at(-1)!) > Math.max(leastWay * radiusPx, leastWayPx))
      tracks.push({ seen: best, radiusPx })
  }
}

const radiusOf = ({ areaPx }: Blob): number => Math.sqrt(areaPx / Math.PI)
const step = (a: Blob, b: Blob): number => Math.hypot(b.xPx - a.xPx, b.yPx - a.yPx)
const isLike = (a: Blob, b: Blob): boolean => a.areaPx < 1.6 * b.areaPx && b.areaPx < 1.6 * a.areaPx
/** As a disc fills its box, smeared by its flight or cut by like-coloured parts of the background. */
const isRound = ({ widthPx, heightPx, areaPx }: Blob): boolean =>
  areaPx >= 12 &&
  areaPx > 0.5 * widthPx * heightPx &&
  Math.max(widthPx, heightPx) < 2.2 * Math.min(widthPx, heightPx)

function grown(start: Seen[], byFrame: Map<number, Seen[]>, used: Set<Seen>): Seen[] {
  const path = [...start]
  for (const way of [1, -1]) {
    for (let missing = 0; missing <= mostMissing; ) {
      const last = way === 1 ? path.at(-1)! : path[0]!
      const before = way === 1 ? path[Math.max(path.length - 4, 0)]! : path[Math.min(3, path.length - 1)]!
      const frame = last.frame + way * (missing + 1)
      const share = (frame - last.frame) / (last.frame - before.frame)
      const x = last.xPx + share * (last.xPx - before.xPx)
      const y = last.yPx + share * (last.yPx - before.yPx)
      const gate = (0.45 + 0.25 * missing) * radiusOf(last) + 2
      const next = (byFrame.get(frame) ?? [])
        .filter(
          blob => !used.has(blob) && isLike(blob, last) && Math.hypot(blob.xPx - x, blob.yPx - y) < gate,
        )
        .sort((a, b) => Math.hypot(a.xPx - x, a.yPx - y) - Math.hypot(b.xPx - x, b.yPx - y))[0]
      if (!next) {
        missing++
        continue
      }
      missing = 0
      if (way === 1) path.push(next)
      else path.unshift(next)
    }
  }
  return path
}
