/**
 * The one time axis that strip and plots share: each picture, point and line of a frame stands at x(frame).
 * Times are real seconds and may be uneven; pixels are screen pixels from the left edge of the figure.
 */
export type TimeAxis = {
  fromFrame: number
  toFrame: number
  leftPx: number
  rightPx: number
  xOfTime(seconds: number): number
  x(frame: number): number
  /** The frame whose time lies nearest to a screen x, held inside the axis. */
  frameAt(xPx: number): number
}

type Span = { fromFrame: number; toFrame: number; leftPx: number; rightPx: number }

/** `timesSeconds` holds one real time a frame of the whole clip; the axis shows the frames of `span`. */
export function timeAxis(timesSeconds: readonly number[], span: Span): TimeAxis {
  const { fromFrame, toFrame, leftPx, rightPx } = span
  const start = timesSeconds[fromFrame] ?? 0
  const length = (timesSeconds[toFrame] ?? start) - start
  const frames = toFrame - fromFrame + 1
  const inset = (rightPx - leftPx) / (2 * frames)
  const width = rightPx - leftPx - 2 * inset
  const xOfTime = (seconds: number) =>
    length > 0 ? leftPx + inset + (width * (seconds - start)) / length : (leftPx + rightPx) / 2
  const x = (frame: number) => xOfTime(timesSeconds[frame] ?? start)
  const frameAt = (xPx: number) => {
    let low = fromFrame
    let high = toFrame
    while (low < high) {
      const middle = (low + high) >> 1
      if ((x(middle) + x(middle + 1)) / 2 <= xPx) low = middle + 1
      else high = middle
    }
    return low
  }
  return { fromFrame, toFrame, leftPx, rightPx, xOfTime, x, frameAt }
}

/** The frames shown: the whole clip, or the window with room to widen it on both sides. */
export function shownFrames(
  window: { fromFrame: number; toFrame: number },
  clipFrames: number,
  wholeClip: boolean,
): { fromFrame: number; toFrame: number } {
  if (wholeClip) return { fromFrame: 0, toFrame: clipFrames - 1 }
  const room = Math.max(2, Math.round((window.toFrame - window.fromFrame + 1) * 0.1))
  return {
    fromFrame: Math.max(0, window.fromFrame - room),
    toFrame: Math.min(clipFrames - 1, window.toFrame + room),
  }
}

/** How wide a picture of the strip is: as wide as a frame's column, within what the eye can use. */
export function pictureWidth(axis: TimeAxis): number {
  const column = (axis.rightPx - axis.leftPx) / (axis.toFrame - axis.fromFrame + 1)
  return Math.min(Math.max(column - 1, smallestPicturePx), largestPicturePx)
}
const smallestPicturePx = 20
const largestPicturePx = 56

/**
 * The frames whose pictures stand side by side without covering each other, from the left. With room for
 * all of them it is every frame.
 */
export function picturesAlong(axis: TimeAxis, pictureWidthPx: number): number[] {
  const frames: number[] = []
  let free = Number.NEGATIVE_INFINITY
  for (let frame = axis.fromFrame; frame <= axis.toFrame; frame++) {
    if (axis.x(frame) < free - 1e-6) continue
    frames.push(frame)
    free = axis.x(frame) + pictureWidthPx
  }
  return frames
}
