import { shownFrames, type TimeAxis } from '../../../../core/picture/time-axis.ts'
import type { ClipFrames } from '../picture/use-frames.ts'
import type { BenchState } from '../state/bench-state.ts'
import { outlineOf } from '../state/seen.ts'

/** The ball fills this share of its picture's width. */
const ballShare = 0.86

type Strip = {
  axis: TimeAxis
  /** Side of each picture, screen pixels. */
  side: number
  shown: readonly number[]
  frames: ClipFrames
  state: BenchState
}

/** Draws each frame's ball above its point; the whole frame where nobody knows yet where the ball is. */
export function drawStrip(canvas: HTMLCanvasElement, { axis, side, shown, frames, state }: Strip): void {
  const context = canvas.getContext('2d')
  if (!context) return
  const density = window.devicePixelRatio || 1
  const width = Math.round(axis.rightPx * density)
  const height = Math.round(side * density)
  if (canvas.width !== width || canvas.height !== height) Object.assign(canvas, { width, height })
  canvas.style.width = `${axis.rightPx}px`
  context.setTransform(density, 0, 0, density, 0, 0)
  context.clearRect(0, 0, axis.rightPx, side)
  context.imageSmoothingQuality = 'high'
  context.fillStyle = getComputedStyle(canvas).getPropertyValue('--surround')
  for (const frame of shown) {
    const left = axis.x(frame) - side / 2
    context.fillRect(left, 0, side, side)
    const picture = frames.near.get(frame)?.whole ?? frames.far.get(frame)
    if (!picture) continue
    context.save()
    context.beginPath()
    context.rect(left, 0, side, side)
    context.clip()
    const { x, y, size } = squareIn(picture, state, frame)
    context.drawImage(picture, x, y, size, size, left, 0, side, side)
    context.restore()
  }
}

/** The square around the ball, in pixels of a picture that may be smaller than the clip's. */
function squareIn(picture: { width: number; height: number }, state: BenchState, frame: number) {
  const scale = picture.width / (state.clip.probe?.widthPx ?? picture.width)
  // Far from the hit a path carried on says nothing of where the ball is.
  const { fromFrame, toFrame } = shownFrames(state.marks.window, state.timesSeconds.length, false)
  const outline = frame >= fromFrame && frame <= toFrame ? outlineOf(state, frame) : null
  if (!outline) {
    const size = Math.max(picture.width, picture.height)
    return { x: (picture.width - size) / 2, y: (picture.height - size) / 2, size }
  }
  const half = outline.radiusPx / ballShare
  return { x: (outline.xPx - half) * scale, y: (outline.yPx - half) * scale, size: 2 * half * scale }
}
