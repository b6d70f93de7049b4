import type { Clip } from '../../../../core/contract/clip.ts'
import { frameTimes } from '../../../../core/timing/frame-times.ts'

/** Real time of each frame of the clip, seconds; as the file has them while no capture rate is known. */
export const realTimes = (
  clip: Clip | null,
  timestampsSeconds: readonly number[],
  captureFps: number | null,
): number[] =>
  frameTimes({ timestampsSeconds, playbackFps: clip?.playbackFps ?? null, captureFps, trusted: true })
