export type FrameClock = {
  /** Container timestamps by frame, as the file has them. */
  timestampsSeconds: readonly number[]
  /** Frames a second that the file asks a player for. */
  playbackFps: number | null
  /** Frames a second of real time while filming. */
  captureFps: number | null
  /** False when the timestamps say nothing about the camera (a conversion made them up). */
  trusted: boolean
}

/** A rate off by less than this is the same rate with frames dropped; a slow-motion file plays at half or less. */
const retimedFrom = 1.5

/**
 * Real time of each frame of a clip, seconds: timestamp · playback / capture when the file was retimed,
 * the timestamp itself otherwise, i / capture when timestamps cannot be trusted.
 *
 * Dropped frames keep their gaps; a repeated frame keeps its own timestamp.
 */
export function frameTimes({ timestampsSeconds, playbackFps, captureFps, trusted }: FrameClock): number[] {
  if (!trusted && captureFps !== null) return timestampsSeconds.map((_, i) => i / captureFps)
  const ratio = playbackFps !== null && captureFps !== null ? playbackFps / captureFps : 1
  const retimed = ratio > retimedFrom || ratio < 1 / retimedFrom
  return timestampsSeconds.map(t => (retimed ? t * ratio : t))
}
