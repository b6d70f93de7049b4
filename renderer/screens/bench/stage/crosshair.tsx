import { type Point, toScreen, type View } from '../picture/view.ts'
import { useBench } from '../state/use-bench.ts'

/** Four strokes that leave the point itself free. */
const lines = ({ x, y }: Point) => `M${x - 16} ${y}h12M${x + 4} ${y}h12M${x} ${y - 16}v12M${x} ${y + 4}v12`

/** The rim points placed so far, and the crosshair once the arrow keys have moved it. */
export function Crosshair({ view }: { view: View }) {
  const rim = useBench(state => state.rim)
  const cursor = useBench(state => state.cursor)
  const at = cursor && toScreen(view, cursor.xPx, cursor.yPx)
  return (
    <g className="crosshair">
      {rim?.points.map(point => {
        const { x, y } = toScreen(view, point.xPx, point.yPx)
        return <path key={`${x} ${y}`} className="rim-point" d={`M${x - 5} ${y - 5}l10 10m0 -10l-10 10`} />
      })}
      {at && <CrosshairLines at={at} />}
    </g>
  )
}

export function CrosshairLines({ at }: { at: Point }) {
  return (
    <>
      <path className="crosshair-halo" d={lines(at)} />
      <path d={lines(at)} />
    </>
  )
}
