import { useState } from 'react'
import type { FrameWindow } from '../../../../core/contract/bench.ts'
import { pictureWidth, type TimeAxis } from '../../../../core/picture/time-axis.ts'
import type { BenchStore } from '../state/bench-store.ts'
import { goTo, goToFirst, goToLast, step } from '../state/going.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { draggedWindow } from './dragged-window.ts'

/** The room above the strip. */
const topPx = 8
/** A pointer that moved less than this clicked. */
const clickPx = 4

/**
 * What lies over strip and plots: the current frame as one line through all, the window, and the pointer.
 * A click goes to a frame; a drag chooses the window, or moves the end of it that it took hold of.
 */
export function TimeTouch({ axis }: { axis: TimeAxis }) {
  const store = useBenchStore()
  const frame = useBench(state => state.frame)
  const window = useBench(state => state.marks.window)
  const [held, setHeld] = useState<{ fromPx: number; toPx: number } | null>(null)
  const side = pictureWidth(axis)
  const chosen = held && isDrag(held) ? draggedWindow(axis, window, held.fromPx, held.toPx) : null

  const xOf = (event: React.PointerEvent) => event.clientX - event.currentTarget.getBoundingClientRect().left
  const onDown = (event: React.PointerEvent) => {
    if (event.button !== 0) return
    event.currentTarget.setPointerCapture(event.pointerId)
    setHeld({ fromPx: xOf(event), toPx: xOf(event) })
  }
  const onMove = (event: React.PointerEvent) => held && setHeld({ ...held, toPx: xOf(event) })
  const onUp = (event: React.PointerEvent) => {
    if (!held) return
    setHeld(null)
    if (!chosen) return goTo(store, axis.frameAt(xOf(event)))
    choose(chosen)
  }
  const choose = (next: FrameWindow) => {
    const { edit, set } = store.getState()
    if (edit('time', { kind: 'set-window', window: next })) set({ wholeClip: false })
  }
  const onKeyDown = (event: React.KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey || !goByKey(store, event.key)) return
    event.preventDefault()
  }

  return (
    <div
      className="time-touch"
      role="slider"
      tabIndex={0}
      aria-label="Frame"
      aria-valuemin={axis.fromFrame}
      aria-valuemax={axis.toFrame}
      aria-valuenow={frame}
      aria-valuetext={`frame ${frame}${isIn(window, frame) ? '' : ', outside the hit'}`}
      // A click goes to a frame and leaves the arrow keys with the crosshair.
      onMouseDown={event => event.preventDefault()}
      onPointerDown={onDown}
      onPointerMove={onMove}
      onPointerUp={onUp}
      onPointerCancel={() => setHeld(null)}
      onKeyDown={onKeyDown}
    >
      <Shade axis={axis} window={chosen ?? window} />
      <div className="now-picture" style={{ left: axis.x(frame) - side / 2, width: side, height: side }} />
      <div className="now-line" style={{ left: axis.x(frame), top: topPx + side }} />
    </div>
  )
}

/** What a slider's keys do here; false for any other key. */
function goByKey(store: BenchStore, key: string): boolean {
  const steps: Record<string, number> = { ArrowLeft: -1, ArrowRight: 1, PageUp: 5, PageDown: -5 }
  if (steps[key] !== undefined) step(store, steps[key])
  else if (key === 'Home') goToFirst(store)
  else if (key === 'End') goToLast(store)
  else return false
  return true
}

const isDrag = (held: { fromPx: number; toPx: number }) => Math.abs(held.toPx - held.fromPx) >= clickPx
const isIn = (window: FrameWindow, frame: number) => frame >= window.fromFrame && frame <= window.toFrame

/** Quiets what lies outside the window and shows its two ends. */
function Shade({ axis, window }: { axis: TimeAxis; window: FrameWindow }) {
  const from = edgeBefore(axis, window.fromFrame)
  const to = edgeBefore(axis, window.toFrame + 1)
  return (
    <>
      <div className="outside" style={{ left: axis.leftPx, width: Math.max(0, from - axis.leftPx) }} />
      <div className="outside" style={{ left: to, width: Math.max(0, axis.rightPx - to) }} />
      <div className="window-end" style={{ left: from }} />
      <div className="window-end last" style={{ left: to }} />
    </>
  )
}

/** The line between a frame and the one before it, held inside the axis. */
function edgeBefore(axis: TimeAxis, frame: number): number {
  if (frame <= axis.fromFrame) return axis.leftPx
  if (frame > axis.toFrame) return axis.rightPx
  return (axis.x(frame - 1) + axis.x(frame)) / 2
}
