import type { BenchMark } from '../../../../core/contract/bench.ts'
import type { Point } from '../picture/view.ts'
import { onDial } from './dial-geometry.ts'

type LineOnBallProps = { centre: Point; radius: number; deg: number; mark: BenchMark; laying?: boolean }

/** A direction as a line through the ball. A mark that looks the same after half a turn has no head. */
export function LineOnBall({ centre, radius, deg, mark, laying = false }: LineOnBallProps) {
  const from = onDial(centre, -radius, deg)
  const to = onDial(centre, radius, deg)
  const d = `M${from.x} ${from.y}L${to.x} ${to.y}`
  const hasHead = mark.symmetryOrder % 2 === 1
  return (
    <g className={laying ? 'line-on-ball laying' : 'line-on-ball'}>
      <path className="ring-halo" d={d} />
      <path className="ring-line" d={d} />
      {hasHead && (
        <path
          className="line-head"
          d="M0 0L-14 -7V7Z"
          transform={`translate(${to.x} ${to.y}) rotate(${deg})`}
        />
      )}
    </g>
  )
}
