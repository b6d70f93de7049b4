import type { FrameWindow } from '../../../../core/contract/bench.ts'
import type { TimeAxis } from '../../../../core/picture/time-axis.ts'

/** A pointer this near to an end of the window takes hold of it. */
const holdPx = 7

/** The window that a drag from one screen x to another chooses: a new one, or one end of the old one moved. */
export function draggedWindow(axis: TimeAxis, old: FrameWindow, fromPx: number, toPx: number): FrameWindow {
  const to = axis.frameAt(toPx)
  const isHeld = (a: number, b: number) => Math.abs(fromPx - (axis.x(a) + axis.x(b)) / 2) <= holdPx
  if (isHeld(old.fromFrame - 1, old.fromFrame))
    return { fromFrame: Math.min(to, old.toFrame), toFrame: old.toFrame }
  if (isHeld(old.toFrame, old.toFrame + 1))
    return { fromFrame: old.fromFrame, toFrame: Math.max(to, old.fromFrame) }
  const from = axis.frameAt(fromPx)
  return { fromFrame: Math.min(from, to), toFrame: Math.max(from, to) }
}
