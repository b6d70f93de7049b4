import type { Reading } from '../contract/reading.ts'
import { unread } from '../spin/reading-of.ts'

/** The reading of a clip in which no flight was found: no figure, the reason and the way out. */
export const noFlight = (frames: number, reason: string, tip: string): Reading =>
  unread({
    window: { fromFrame: 0, toFrame: Math.max(frames - 1, 0) },
    method: 'surface',
    flag: 'too-few-frames',
    reasons: [reason, tip],
    framesUsed: 0,
  })
