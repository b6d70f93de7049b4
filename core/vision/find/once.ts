import type { Track } from './track.ts'

/**
 * Each flight once: stretches of a clip share frames, and what is seen in two of them is found in both. The longer
 * track of two stays when more than half of the shorter one's places are also its own.
 */
export function seenOnce(tracks: readonly Track[]): Track[] {
  const longest = [...tracks].sort((a, b) => b.seen.length - a.seen.length)
  const kept: { track: Track; places: Map<number, Track['seen'][number]> }[] = []
  for (const track of longest) {
    const isKnown = kept.some(({ places }) => {
      const shared = track.seen.filter(({ frame, xPx, yPx }) => {
        const there = places.get(frame)
        return there && Math.hypot(there.xPx - xPx, there.yPx - yPx) < track.radiusPx
      })
      return shared.length > track.seen.length / 2
    })
    if (!isKnown) kept.push({ track, places: new Map(track.seen.map(blob => [blob.frame, blob])) })
  }
  const stay = new Set(kept.map(({ track }) => track))
  return tracks.filter(track => stay.has(track))
}
