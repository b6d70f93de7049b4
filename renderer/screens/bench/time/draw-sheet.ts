import type { ClipFrames } from '../picture/use-frames.ts'
import type { Size } from '../picture/view.ts'
import type { BenchState } from '../state/bench-state.ts'
import { rotationShown, turnedBackPicture } from './turned-back.ts'

/** How so many squares fill a room as large as they can, row by row. */
export function sheetOf(count: number, { width, height }: Size): { side: number; columns: number } {
  let best = { side: 1, columns: 1 }
  for (let columns = 1; columns <= count; columns++) {
    const side = Math.floor(Math.min(width / columns, height / Math.ceil(count / columns)))
    if (side > best.side) best = { side, columns }
  }
  return best
}

const gapPx = 4

/** Draws every frame of the hit, its ball turned back; what a frame does not see of it stays empty. */
export function drawSheet(
  canvas: HTMLCanvasElement,
  { size, frames, state }: { size: Size; frames: ClipFrames; state: BenchState },
): void {
  const context = canvas.getContext('2d')
  const rotation = rotationShown(state)
  if (!context || !rotation || size.width === 0) return
  const density = window.devicePixelRatio || 1
  Object.assign(canvas, {
    width: Math.round(size.width * density),
    height: Math.round(size.height * density),
  })
  context.scale(density, density)
  const style = getComputedStyle(canvas)
  const { fromFrame, toFrame } = state.marks.window
  const { side, columns } = sheetOf(toFrame - fromFrame + 1, size)
  for (let frame = fromFrame; frame <= toFrame; frame++) {
    const place = frame - fromFrame
    const [x, y] = [(place % columns) * side, Math.floor(place / columns) * side]
    context.fillStyle = style.getPropertyValue('--surround')
    context.fillRect(x, y, side - 1, side - 1)
    if (frame === state.frame) {
      context.strokeStyle = style.getPropertyValue('--accent')
      context.lineWidth = 2
      context.strokeRect(x + 1, y + 1, side - 3, side - 3)
    }
    const picture = frames.near.get(frame)?.whole ?? frames.far.get(frame)
    const ballPx = side - 1 - 2 * gapPx
    if (!picture || ballPx < 4) continue
    const ball = turnedBackPicture(picture, state, frame, rotation, Math.round(ballPx * density))
    if (ball) context.drawImage(ball, x + gapPx, y + gapPx, ballPx, ballPx)
  }
}
