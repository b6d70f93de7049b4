import type { Clip } from '../contract/clip.ts'
import type { Camera } from '../contract/workspace.ts'

/** A file's rate and a camera's measured one this near each other are the same mode. */
const sameModeWithin = 0.05

/**
 * The capture rate that a clip's readings rest on, frames per second of real time, or null when nobody
 * knows. What comes first is what knows this very clip best: a person's word on the clip; then what the
 * camera wrote into the file, which names the mode, made true by the session's camera where that was
 * measured in this mode; then the session's camera; then the file's frame times, which a slow-motion
 * export would have stretched.
 */
export function captureFpsOf(
  clip: Pick<Clip, 'capture'>,
  camera: Pick<Camera, 'captureFps' | 'relativeUncertainty'>,
): number | null {
  const { fps, source } = clip.capture
  if (fps !== null && source === 'user') return fps
  if (fps !== null && source === 'metadata') {
    const { captureFps, relativeUncertainty } = camera
    const measured = captureFps !== null && relativeUncertainty !== null ? captureFps : null
    return measured !== null && Math.abs(measured / fps - 1) < sameModeWithin ? measured : fps
  }
  return camera.captureFps ?? fps
}
