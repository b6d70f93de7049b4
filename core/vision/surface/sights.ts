import type { Outline } from '../../contract/marks.ts'
import { type BallView, ballView } from '../../geometry/ball-view.ts'
import { viewRotation } from '../../geometry/line-of-sight.ts'
import type { Rotation } from '../../geometry/rotation.ts'
import { median } from '../../numerics/median.ts'
import type { SurfaceInput } from './surface-input.ts'

/** How one frame looks at the ball, and when. */
export type Sight = {
  view: BallView
  /** From view axes (z along the line of sight) to camera axes. */
  toCamera: Rotation
  /** When the row of the ball's middle was seen; counted from the middle of the flight. */
  timeSeconds: number
  /** How much later a row one ball radius further down was seen. */
  shearSeconds: number
  /** Of the ball in the picture, px/s. */
  velocityX: number
  velocityY: number
  /** Seconds a pixel row. */
  rowSeconds: number
}

/** The looks of all frames for a focal length; the principal point is the middle of the picture. */
export function sightsOf(input: SurfaceInput, focalPx: number, readoutSeconds: number): Sight[] {
  const { frames, picture } = input
  const camera = { focalPx, xPx: picture.widthPx / 2, yPx: picture.heightPx / 2 }
  const rowSeconds = readoutSeconds / picture.heightPx
  const times = frames.map(({ timeSeconds, outline }) => timeSeconds + rowSeconds * outline.yPx)
  const middle = (times[0]! + times.at(-1)!) / 2
  return frames.map(({ outline }, i) => {
    const view = ballView(outline, camera)
    const speed = (of: (outline: Outline) => number) => {
      const [a, b] = [Math.max(i - 1, 0), Math.min(i + 1, frames.length - 1)]
      return b > a ? (of(frames[b]!.outline) - of(frames[a]!.outline)) / (times[b]! - times[a]!) : 0
    }
    return {
      view,
      toCamera: viewRotation(view.toBall),
      timeSeconds: times[i]! - middle,
      shearSeconds: rowSeconds * outline.radiusPx,
      velocityX: speed(o => o.xPx),
      velocityY: speed(o => o.yPx),
      rowSeconds,
    }
  })
}

/** The usual time from one frame to the next, seconds. */
export const intervalOf = (sights: readonly Sight[]): number =>
  median(sights.slice(1).map((s, i) => s.timeSeconds - sights[i]!.timeSeconds))
