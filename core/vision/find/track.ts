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
  const byFrame = groupedByFrame(blobs)
  const used = new Set<Seen>()
  let pairs = pairsOf(blobs, byFrame)
  const tracks: Track[] = []
  for (;;) {
    pairs = pairs.filter(({ a, b }) => !used.has(a) && !used.has(b))
    let best: Seen[] = []
    for (const pair of pairs) {
      // A path stays what it is until one of its own blobs is taken.
      if (!pair.path || pair.path.some(blob => used.has(blob))) pair.path = grown(pair, byFrame, used)
      if (pair.path.length > best.length) best = pair.path
    }
    if (best.length < fewestSeen) return tracks
    for (const blob of best) used.add(blob)
    const radiusPx = median(best.map(radiusOf))
    if (step(best[0]!, best.at(-1)!) > Math.max(leastWay * radiusPx, leastWayPx))
      tracks.push({ seen: best, radiusPx })
  }
}

/** Two like blobs in neighbouring frames, and the longest path through them once it was looked for. */
type Pair = { a: Seen; b: Seen; path: Seen[] | null }

const pairsOf = (blobs: readonly Seen[], byFrame: Map<number, Seen[]>): Pair[] =>
  blobs
    .filter(isRound)
    .flatMap(a =>
      (byFrame.get(a.frame + 1) ?? [])
        .filter(b => isRound(b) && isLike(a, b) && step(a, b) <= 5 * radiusOf(a))
        .map(b => ({ a, b, path: null })),
    )

function groupedByFrame(blobs: readonly Seen[]): Map<number, Seen[]> {
  const byFrame = new Map<number, Seen[]>()
  for (const blob of blobs) {
    const there = byFrame.get(blob.frame)
    if (there) there.push(blob)
    else byFrame.set(blob.frame, [blob])
  }
  return byFrame
}

const radiusOf = ({ areaPx }: Blob): number => Math.sqrt(areaPx / Math.PI)
const step = (a: Blob, b: Blob): number => Math.hypot(b.xPx - a.xPx, b.yPx - a.yPx)
const isLike = (a: Blob, b: Blob): boolean => a.areaPx < 1.6 * b.areaPx && b.areaPx < 1.6 * a.areaPx
/** As a disc fills its box, smeared by its flight or cut by like-coloured parts of the background. */
const isRound = ({ widthPx, heightPx, areaPx }: Blob): boolean =>
  areaPx >= 12 &&
  areaPx > 0.5 * widthPx * heightPx &&
  Math.max(widthPx, heightPx) < 2.2 * Math.min(widthPx, heightPx)

function grown({ a, b }: Pair, byFrame: Map<number, Seen[]>, used: Set<Seen>): Seen[] {
  const path = [a, b]
  for (const way of [1, -1]) {
    for (let missing = 0; missing <= mostMissing; ) {
      const last = way === 1 ? path.at(-1)! : path[0]!
      const before = way === 1 ? path[Math.max(path.length - 4, 0)]! : path[Math.min(3, path.length - 1)]!
      const frame = last.frame + way * (missing + 1)
      const share = (frame - last.frame) / (last.frame - before.frame)
      const x = last.xPx + share * (last.xPx - before.xPx)
      const y = last.yPx + share * (last.yPx - before.yPx)
      let next: Seen | null = null
      let nearest = (0.45 + 0.25 * missing) * radiusOf(last) + 2
      for (const blob of byFrame.get(frame) ?? []) {
        const off = Math.hypot(blob.xPx - x, blob.yPx - y)
        if (off >= nearest || used.has(blob) || !isLike(blob, last)) continue
        next = blob
        nearest = off
      }
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
