import type { FrameWindow } from '../../core/contract/bench.ts'

/** Where a person is in a clip and which way they go: 1 forwards, −1 backwards, 0 just arrived. */
export type Walk = { frame: number; direction: -1 | 0 | 1 }

/** The walk after `frame` was asked for; a leap further than `near` frames is an arrival. */
export function walked(before: Walk | undefined, frame: number, near: number): Walk {
  if (!before || Math.abs(frame - before.frame) > near) return { frame, direction: 0 }
  const step = Math.sign(frame - before.frame) as Walk['direction']
  return { frame, direction: step === 0 ? before.direction : step }
}

/**
 * The frames to decode when `frame` is missing: `length` of them ahead of a walk, mostly ahead of an arrival
 * (what lies before costs little, for decoding begins at the key picture before it); none that is there already
 * at either end.
 */
export function runAround(
  frame: number,
  direction: Walk['direction'],
  length: number,
  frames: number,
  isThere: (frame: number) => boolean,
): FrameWindow {
  const before = direction === 1 ? 0 : direction === -1 ? length - 1 : length >> 2
  let fromFrame = Math.max(0, frame - before)
  let toFrame = Math.min(frames - 1, fromFrame + length - 1, direction === -1 ? frame : frames)
  while (fromFrame < frame && isThere(fromFrame)) fromFrame++
  while (toFrame > frame && isThere(toFrame)) toFrame--
  return { fromFrame, toFrame }
}

/** The first missing frame within `near` frames ahead of a walk, or null. */
export function missingAhead(
  { frame, direction }: Walk,
  near: number,
  frames: number,
  isThere: (frame: number) => boolean,
): number | null {
  if (direction === 0) return null
  for (
    let ahead = frame + direction, n = 0;
    n < near && ahead >= 0 && ahead < frames;
    ahead += direction, n++
  )
    if (!isThere(ahead)) return ahead
  return null
}
