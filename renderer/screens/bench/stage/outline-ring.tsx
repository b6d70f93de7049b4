import { type Point, toScreen, type View } from '../picture/view.ts'
import { dragOutline, dropOutline } from '../state/rim.ts'
import { outlineOf, placedOutline } from '../state/seen.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'

/** The ball's circle: placed ones solid, found and interpolated ones dashed; with handles while the rim is worked on. */
export function OutlineRing({ view }: { view: View }) {
  const state = useBench(all => all)
  const outline = outlineOf(state, state.frame)
  if (!outline || state.rim) return null
  const centre = toScreen(view, outline.xPx, outline.yPx)
  const radius = outline.radiusPx * view.scale
  const there = placedOutline(state, state.frame)
  const isAgreed = there !== null && (!there.found || state.marks.verdict.state === 'accepted')
  const placed = isAgreed || state.dragged !== null
  return (
    <g className={placed ? 'outline placed' : 'outline'} data-mode={state.mode}>
      <circle className="outline-halo" cx={centre.x} cy={centre.y} r={radius} />
      <circle className="outline-line" cx={centre.x} cy={centre.y} r={radius} />
      {state.mode === 'outline' && <Handles centre={centre} radius={radius} view={view} />}
    </g>
  )
}

type HandlesProps = { centre: Point; radius: number; view: View }

function Handles({ centre, radius, view }: HandlesProps) {
  const store = useBenchStore()
  /** Follows the pointer from where it took hold, in picture pixels. */
  const drag = (moved: (dxPx: number, dyPx: number) => void) => (event: React.PointerEvent<SVGElement>) => {
    event.stopPropagation()
    const { clientX, clientY, currentTarget, pointerId } = event
    currentTarget.setPointerCapture(pointerId)
    const onMove = (move: PointerEvent) =>
      moved((move.clientX - clientX) / view.scale, (move.clientY - clientY) / view.scale)
    const onEnd = () => {
      currentTarget.removeEventListener('pointermove', onMove)
      dropOutline(store)
    }
    currentTarget.addEventListener('pointermove', onMove)
    currentTarget.addEventListener('lostpointercapture', onEnd, { once: true })
  }
  const byCentre = drag((dxPx, dyPx) =>
    dragOutline(store, from => ({ ...from, xPx: from.xPx + dxPx, yPx: from.yPx + dyPx })),
  )
  const byRim = (out: Point) =>
    drag((dxPx, dyPx) =>
      dragOutline(store, from => ({ ...from, radiusPx: from.radiusPx + dxPx * out.x + dyPx * out.y })),
    )
  return (
    <>
      <circle className="handle-area" cx={centre.x} cy={centre.y} r={radius * 0.8} onPointerDown={byCentre} />
      <path className="handle" d={`M${centre.x - 8} ${centre.y}h16M${centre.x} ${centre.y - 8}v16`} />
      {[45, 135, 225, 315].map(deg => {
        const out = { x: Math.cos((deg * Math.PI) / 180), y: Math.sin((deg * Math.PI) / 180) }
        return (
          <circle
            key={deg}
            className="handle-rim"
            cx={centre.x + radius * out.x}
            cy={centre.y + radius * out.y}
            r={7}
            onPointerDown={byRim(out)}
          />
        )
      })}
    </>
  )
}
