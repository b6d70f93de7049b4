import type { FrameWindow } from '../../../core/contract/bench.ts'

/** A clip no longer than this holds one hit, most likely: its whole length is the first window. */
const shortSeconds = 0.75
/** Around a chosen moment: about the flight that a fixed camera sees. The bench narrows it. */
const aroundSeconds = 0.25

/** The window that a new hit starts with: the whole of a short clip, else the frames around a chosen one. */
export function windowAround(frame: number, clip: { frames: number; fps: number }): FrameWindow {
  const last = Math.max(0, clip.frames - 1)
  if (clip.frames <= shortSeconds * clip.fps) return { fromFrame: 0, toFrame: last }
  const around = Math.max(1, Math.round(aroundSeconds * clip.fps))
  return { fromFrame: Math.max(0, frame - around), toFrame: Math.min(last, frame + around) }
}
