import { useEffect, useMemo, useRef } from 'react'
import { picturesAlong, pictureWidth, type TimeAxis } from '../../../../core/picture/time-axis.ts'
import { useFrames } from '../picture/use-frames.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { drawStrip } from './draw-strip.ts'

/** The ball in every frame, one picture a frame, each exactly above its point in the plots. */
export function Strip({ axis }: { axis: TimeAxis }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const frames = useFrames()
  const store = useBenchStore()
  const marks = useBench(state => state.marks)
  const dragged = useBench(state => state.dragged)
  const side = pictureWidth(axis)
  const along = useMemo(() => picturesAlong(axis, side), [axis, side])
  // The current frame's picture stands above its point too, over its neighbours where they are dense.
  const between = useBench(state => (along.includes(state.frame) ? null : state.frame))
  const shown = useMemo(() => (between === null ? along : [...along, between]), [along, between])

  // biome-ignore lint/correctness/useExhaustiveDependencies: the outlines are read from the store.
  useEffect(() => {
    let asked = 0
    const draw = () => {
      asked = 0
      if (canvas.current) drawStrip(canvas.current, { axis, side, shown, frames, state: store.getState() })
    }
    draw()
    const ask = () => {
      asked ||= requestAnimationFrame(draw)
    }
    const stops = [frames.near.onChange(ask), frames.far.onChange(ask)]
    return () => {
      cancelAnimationFrame(asked)
      for (const stop of stops) stop()
    }
  }, [axis, side, shown, frames, store, marks, dragged])

  return (
    <div className="strip" style={{ height: side }}>
      <canvas ref={canvas} />
    </div>
  )
}
