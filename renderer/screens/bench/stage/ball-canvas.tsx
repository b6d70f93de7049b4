import { useEffect, useLayoutEffect, useRef } from 'react'
import { drawView } from '../picture/draw-view.ts'
import { stepDrawn, stepWaits } from '../picture/step-times.ts'
import { useFrames } from '../picture/use-frames.ts'
import type { Size } from '../picture/view.ts'
import { useBenchStore } from '../state/use-bench.ts'
import { shownOn } from './shown-on.ts'

/** The picture itself. It is drawn straight from the store's change, ahead of everything around it. */
export function BallCanvas({ stage }: { stage: Size }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const store = useBenchStore()
  const frames = useFrames().near
  const draw = useRef(() => {})
  const last = useRef('')

  useLayoutEffect(() => {
    draw.current = () => {
      if (!canvas.current || stage.width === 0) return
      const state = store.getState()
      const picture = frames.get(state.frame)
      const { view, disc } = shownOn(state, stage)
      const asDrawn = JSON.stringify([state.frame, picture !== null, view, disc])
      if (asDrawn === last.current) return
      last.current = asDrawn
      drawView(canvas.current, picture?.whole ?? null, view, disc)
      if (picture) stepDrawn(state.frame)
      else stepWaits()
    }
    draw.current()
  }, [store, frames, stage])

  useEffect(() => {
    const stopStore = store.subscribe(() => draw.current())
    const stopFrames = frames.onChange(() => draw.current())
    return () => {
      stopStore()
      stopFrames()
    }
  }, [store, frames])

  return <canvas ref={canvas} className="ball-canvas" />
}
