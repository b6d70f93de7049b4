import { mostLost } from './joined.ts'
import { meetingOf } from './meeting.ts'
import type { Track } from './track.ts'

/** Frames between two flights in which a paddle may cover the ball. */
const mostFrames = 8
/** By how much the sizes of one ball may differ from blob to blob, as a factor. */
const likeSize = 1.5
/** Blobs that a paddle has grown together with lie off: the paths meet to within so many radii. */
const meets = 1.5

/**
 * Tracks that meet in a contact, each held to its own side of it: the path of one leads past the contact, to where
 * the ball does not go. Tracks in px of one picture.
 */
export function heldApart(tracks: readonly Track[]): Track[] {
  const held = tracks.map(track => ({ ...track }))
  for (const before of held)
    for (const after of held) {
      const [last, first] = [before.seen.at(-1)!.frame, after.seen[0]!.frame]
      const size = before.radiusPx / after.radiusPx
      if (first <= last || first - last > mostFrames || size > likeSize || size < 1 / likeSize) continue
      const meeting = meetingOf(before.seen, after.seen)
      if (!meeting || meeting.apartPx > meets * before.radiusPx) continue
      const at = Math.min(Math.max(meeting.atFrame, last), first)
      before.toFrame = Math.min(Math.max(Math.floor(at), last), first - 1)
      after.fromFrame = before.toFrame + 1
    }
  return held
}

/**
 * The tracks that nothing can be added to any more, when frames from `openFrame` on are still to be looked at: they
 * end before, and so do all that may meet them in a contact or go on where they end.
 */
export function settled(tracks: readonly Track[], openFrame: number): Track[] {
  const lastOf = ({ seen }: Track) => seen.at(-1)!.frame
  const within = Math.max(mostFrames, mostLost + 1)
  let open = openFrame
  for (const track of [...tracks].sort((a, b) => lastOf(b) - lastOf(a)))
    if (lastOf(track) + within >= open) open = Math.min(open, track.seen[0]!.frame)
  return tracks.filter(track => lastOf(track) + within < open)
}
