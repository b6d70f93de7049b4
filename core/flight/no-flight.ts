import type { Reading } from '../contract/reading.ts'
import { unread } from '../spin/reading-of.ts'
import { leastWay } from '../vision/find/find-tracks.ts'
import type { Moved } from '../vision/find/moved.ts'
import { fewestSeen } from '../vision/find/track.ts'

/** Why there is no figure, and the way out. */
export type Why = { reason: string; tip: string }

/** The reading of a clip in which no flight was found: no figure, the reason and the way out. */
export const noFlight = (frames: number, { reason, tip }: Why): Reading =>
  unread({
    window: { fromFrame: 0, toFrame: Math.max(frames - 1, 0) },
    method: 'surface',
    flag: 'too-few-frames',
    reasons: [reason, tip],
    framesUsed: 0,
  })

/** With more of the picture moving at once it is the camera that moves: common practice, no source. */
const camera = 0.3

const keepClear =
  'Keep hands and paddles from between camera and ball, and film before something much lighter or much darker than the ball; or mark it by hand.'

/**
 * What kept a ball from being found, by what moved in the clip. `tracks` counts the paths along which something flew
 * without being made out as a ball.
 */
export function whyNoFlight({ moving, reach, largest }: Moved, tracks: number): Why {
  if (moving.length === 0)
    return {
      reason: 'No ball was seen: nothing in these frames moves.',
      tip: 'Check that this is the clip of the hit. A ball that is as bright as what lies behind it is not seen either: film it before something much lighter or much darker.',
    }
  if (largest > camera)
    return {
      reason:
        'No ball was seen by itself: nearly all of the picture moves, so the camera was bumped or carried.',
      tip: 'Put the camera on a stand, do not touch it while it films, and film the hit again; or mark the ball by hand.',
    }
  if (tracks > 0)
    return {
      reason: 'Something flies through the picture, but nowhere can a whole ball be made out.',
      tip: keepClear,
    }
  if (moving.length < fewestSeen)
    return {
      reason: `Something flies by in ${moving.length === 1 ? 'one frame' : `${moving.length} frames`} only: too few to see a ball turn.`,
      tip: 'Film so that the ball crosses the whole picture: from further away, or at more frames a second.',
    }
  if (reach < leastWay)
    return {
      reason: 'No ball was seen flying: what moves stays in one place.',
      tip: 'Choose the part of the clip in which the ball flies; a ball that turns where it lies can be marked by hand.',
    }
  return {
    reason: 'Something moves in the picture, but no round ball is seen flying through it.',
    tip: keepClear,
  }
}
