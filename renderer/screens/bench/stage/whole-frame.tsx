import { memo, useEffect, useRef } from 'react'
import { useShallow } from 'zustand/react/shallow'
import { outlineAt } from '../../../../core/marking/outline-at.ts'
import { drawView } from '../picture/draw-view.ts'
import { useFrames } from '../picture/use-frames.ts'
import { wholeView } from '../picture/view.ts'
import { outlineOf } from '../state/seen.ts'
import { useBench } from '../state/use-bench.ts'
import { useSize } from '../use-size.ts'

/** The whole frame, small: where the ball is, where it came from and where it goes. */
export function WholeFrame() {
  const box = useRef<HTMLDivElement>(null)
  const canvas = useRef<HTMLCanvasElement>(null)
  const size = useSize(box)
  const frames = useFrames().near
  const frame = useBench(state => state.frame)
  const probe = useBench(state => state.clip.probe)
  const widthPx = probe?.widthPx ?? 16
  const heightPx = probe?.heightPx ?? 9

  useEffect(() => {
    const draw = () => {
      const picture = frames.get(frame)?.small
      // While it is on its way the last one stays: the path around it is still right.
      if (!canvas.current || !picture || size.width === 0) return
      drawView(canvas.current, picture, wholeView(picture, size))
    }
    draw()
    return frames.onChange(draw)
  }, [frames, frame, size])

  return (
    <div ref={box} className="whole-frame" style={{ aspectRatio: `${widthPx} / ${heightPx}` }}>
      <canvas ref={canvas} />
      <svg
        viewBox={`0 0 ${widthPx} ${heightPx}`}
        role="img"
        aria-label="The whole frame with the ball’s path"
      >
        <Path />
        <Now />
      </svg>
    </div>
  )
}

/** The ball's path through the hit: interpolated centres joined, placed outlines as circles. */
const Path = memo(function Path() {
  const marks = useBench(state => state.marks)
  const timesSeconds = useBench(state => state.timesSeconds)
  const { fromFrame, toFrame } = marks.window
  const inHit = Array.from({ length: toFrame - fromFrame + 1 }, (_, i) =>
    outlineAt(marks, fromFrame + i, timesSeconds),
  )
  return (
    <g className="path">
      <polyline
        points={inHit.flatMap(o => (o ? [`${o.xPx.toFixed(1)},${o.yPx.toFixed(1)}`] : [])).join(' ')}
      />
      {marks.outlines.map((o, place) => (
        <g key={o.frame}>
          <circle cx={o.xPx} cy={o.yPx} r={o.radiusPx} />
          {/* Placed between two others, it corrects what would have been interpolated: that has a dot. */}
          {!o.found && place > 0 && place < marks.outlines.length - 1 && (
            <path className="path-corrected" d={`M${o.xPx} ${o.yPx}h0`} />
          )}
        </g>
      ))}
    </g>
  )
})

/** Where the ball is in the frame that is looked at. */
function Now() {
  const outline = useBench(useShallow(state => outlineOf(state, state.frame)))
  return outline && <circle className="path-now" cx={outline.xPx} cy={outline.yPx} r={outline.radiusPx} />
}
