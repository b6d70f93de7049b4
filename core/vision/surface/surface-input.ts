import type { Outline } from '../../contract/marks.ts'
import type { Luma } from '../luma.ts'

/** One frame of a flight: real time at the middle of its first row's exposure, the ball's circle, its pixels. */
export type SurfaceFrame = { index: number; timeSeconds: number; outline: Outline; luma: Luma }

/** All that the surface method needs of one flight; frames in order of time, the ball whole in each. */
export type SurfaceInput = {
  frames: SurfaceFrame[]
  picture: { widthPx: number; heightPx: number }
  fps: number
  exposureSeconds: number | null
  /** Null: not known; half a frame's interval is assumed. */
  readoutSeconds: number | null
  /** Null: not known; estimated with the rotation. */
  focalLengthPx: number | null
  maxRateRadPerSecond: number
}
