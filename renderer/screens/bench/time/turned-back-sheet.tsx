import { useEffect, useRef } from 'react'
import { digits } from '../../../components/figure-text.ts'
import { useFrames } from '../picture/use-frames.ts'
import { goTo } from '../state/going.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { useSize } from '../use-size.ts'
import { drawSheet, sheetOf } from './draw-sheet.ts'

/** Every frame's ball turned back to the first frame's pose: the eye sees at once when one does not fit. */
export function TurnedBackSheet() {
  const canvas = useRef<HTMLCanvasElement>(null)
  const room = useRef<HTMLButtonElement>(null)
  const size = useSize(room)
  const frames = useFrames()
  const store = useBenchStore()
  const [marks, live] = [useBench(state => state.marks), useBench(state => state.live)]
  const [overlaid, frame] = [useBench(state => state.overlaid), useBench(state => state.frame)]
  const shown = overlaid === null ? live.reading : live.reading?.candidates[overlaid]

  // biome-ignore lint/correctness/useExhaustiveDependencies: what is drawn is read from the store.
  useEffect(() => {
    let asked = 0
    const draw = () => {
      asked = 0
      if (canvas.current) drawSheet(canvas.current, { size, frames, state: store.getState() })
    }
    draw()
    const ask = () => {
      asked ||= requestAnimationFrame(draw)
    }
    const stop = frames.near.onChange(ask)
    return () => {
      cancelAnimationFrame(asked)
      stop()
    }
  }, [size, frames, store, marks, live, overlaid, frame])

  const choose = (event: React.MouseEvent) => {
    const box = event.currentTarget.getBoundingClientRect()
    const { fromFrame, toFrame } = marks.window
    const { side, columns } = sheetOf(toFrame - fromFrame + 1, size)
    const column = Math.floor((event.clientX - box.left) / side)
    const chosen = fromFrame + Math.floor((event.clientY - box.top) / side) * columns + column
    if (column < columns && chosen <= toFrame) goTo(store, chosen)
  }
  return (
    <div className="turned-back">
      <p role="status">
        Every ball turned back to frame {marks.window.fromFrame}
        {shown?.rpm != null && ` by ${digits(shown.rpm)} rpm ${shown.sense ?? ''}`}.{' '}
        <span className="quiet">If that is right, all look the same.</span>{' '}
        <button type="button" className="plain" onClick={() => store.setState({ turnedBack: false })}>
          Back to the plot
        </button>
      </p>
      <button ref={room} type="button" className="sheet" aria-label="Go to a frame" onClick={choose}>
        <canvas ref={canvas} />
      </button>
    </div>
  )
}
