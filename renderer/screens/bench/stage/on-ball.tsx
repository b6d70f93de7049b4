import { toScreen, type View } from '../picture/view.ts'
import { lineBearingOf, outlineOf, sightingOf } from '../state/seen.ts'
import { useBench } from '../state/use-bench.ts'
import { onDial } from './dial-geometry.ts'
import { LineOnBall } from './line-on-ball.tsx'
import { markHue } from './mark-look.tsx'

/** The marks of this frame on the ball: seen ones solid, where the fit expects them dashed. */
export function OnBall({ view }: { view: View }) {
  const state = useBench(all => all)
  const outline = outlineOf(state, state.frame)
  if (!outline) return null
  const centre = toScreen(view, outline.xPx, outline.yPx)
  const radius = outline.radiusPx * view.scale
  return (
    <g className="on-ball">
      {state.marks.marks.map((mark, index) => {
        const seen = sightingOf(state, state.frame, mark.id)
        const expected = state.live.expected(mark, state.frame)
        const laying = state.mode === 'mark' && mark.id === state.mark && mark.kind === 'direction'
        return (
          <g key={mark.id} style={{ color: markHue(index) }}>
            {seen?.kind === 'point' && <Ring {...toScreen(view, seen.xPx, seen.yPx)} />}
            {seen?.kind === 'direction' && (
              <LineOnBall centre={centre} radius={radius} deg={seen.bearingDeg} mark={mark} />
            )}
            {seen?.kind === 'hidden' && (
              <Ring {...onDial(centre, radius, expected?.bearingDeg ?? 270)} hidden />
            )}
            {!seen &&
              !laying &&
              expected &&
              expected.xPx !== null &&
              expected.yPx !== null &&
              !expected.hidden && <Ring {...toScreen(view, expected.xPx, expected.yPx)} expected />}
            {laying && (!seen || state.cursorBearingDeg !== null) && (
              <LineOnBall centre={centre} radius={radius} deg={lineBearingOf(state)} mark={mark} laying />
            )}
          </g>
        )
      })}
    </g>
  )
}

type RingProps = { x: number; y: number; expected?: boolean; hidden?: boolean }

/** A ring that leaves the mark itself free to be judged. */
function Ring({ x, y, expected = false, hidden = false }: RingProps) {
  const name = expected ? 'ring expected' : hidden ? 'ring hidden' : 'ring'
  return (
    <g className={name}>
      <circle className="ring-halo" cx={x} cy={y} r={hidden ? 6 : 10} />
      <circle className="ring-line" cx={x} cy={y} r={hidden ? 6 : 10} />
    </g>
  )
}
