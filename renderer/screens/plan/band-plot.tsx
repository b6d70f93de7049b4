import type { Plan } from '../../../core/contract/plan.ts'
import { type Curve, type CurvePoint, mostRpmOf } from '../../../core/planning/curves.ts'
import { digits } from '../../components/figure-text.ts'

const size = { width: 760, height: 300 }
const edge = { left: 56, right: 92, top: 16, bottom: 40 }
const decades = [1, 3, 10, 30, 100, 300, 1000]
const [lowest, highest] = [1, 1000]

/** Band against spin for several frame rates: solid where a reading is clear, dotted where it is not. */
export function BandPlot({ plan, curves }: { plan: Plan; curves: Curve[] }) {
  const most = mostRpmOf(plan.setUp)
  const x = (rpm: number) => edge.left + (rpm / most) * (size.width - edge.left - edge.right)
  const y = (half: number) =>
    size.height -
    edge.bottom -
    (Math.log(Math.min(Math.max(half, lowest), highest)) / Math.log(highest)) *
      (size.height - edge.top - edge.bottom)
  const { fittingHalfWidthRpm: here } = plan.expected
  const ends = endsOf(curves, y)
  return (
    <figure className="foreseen-plot">
      <svg
        viewBox={`0 0 ${size.width} ${size.height}`}
        role="img"
        aria-label="Half-width of the band against spin, for several frame rates"
      >
        {decades.map(half => (
          <g key={half}>
            <line className="foreseen-plot-grid" x1={x(0)} x2={x(most)} y1={y(half)} y2={y(half)} />
            <text x={x(0) - 8} y={y(half) + 4} textAnchor="end">
              ±{half}
            </text>
          </g>
        ))}
        {[0, 1, 2, 3, 4, 5].map(fifth => (
          <text key={fifth} x={x((most * fifth) / 5)} y={size.height - 20} textAnchor="middle">
            {digits((most * fifth) / 5)}
          </text>
        ))}
        <text x={x(most)} y={size.height - 4} textAnchor="end">
          spin, rpm
        </text>
        <line
          className="foreseen-plot-here"
          x1={x(plan.setUp.rpm)}
          x2={x(plan.setUp.rpm)}
          y1={edge.top}
          y2={y(lowest)}
        />
        {curves.map((curve, i) => (
          <g
            key={curve.captureFps}
            className="foreseen-plot-curve"
            data-hue={i}
            data-own={curve.captureFps === plan.setUp.captureFps}
          >
            {segmentsOf(curve.points).map(({ from, to, clear }) => (
              <line
                key={from.rpm}
                data-clear={clear}
                x1={x(from.rpm)}
                y1={y(from.halfWidthRpm!)}
                x2={x(to.rpm)}
                y2={y(to.halfWidthRpm!)}
              />
            ))}
            {curve.ceilingRpm <= most && (
              <>
                <line x1={x(curve.ceilingRpm)} x2={x(curve.ceilingRpm)} y1={edge.top} y2={edge.top + 14} />
                <path
                  d={`M${x(curve.ceilingRpm) - 5} ${edge.top} h10`}
                  aria-label={`ceiling of ${curve.captureFps} fps`}
                />
              </>
            )}
            {ends.has(curve.captureFps) && (
              <text x={x(most) + 8} y={ends.get(curve.captureFps)! + 4}>
                {curve.captureFps} fps
              </text>
            )}
          </g>
        ))}
        {here !== null && (
          <circle className="foreseen-plot-dot" cx={x(plan.setUp.rpm)} cy={y(here)} r="4.5" />
        )}
      </svg>
      <CurveTable curves={curves} />
      <figcaption className="quiet">
        Half-width of the band to expect. Dotted: not clear. A bar at the top: a frame rate’s ceiling.
      </figcaption>
    </figure>
  )
}

/** The curves' points as a table for ears. */
function CurveTable({ curves }: { curves: Curve[] }) {
  return (
    <table className="unseen">
      <caption>Half-width of the band against spin</caption>
      <thead>
        <tr>
          <th scope="col">Frame rate, fps</th>
          <th scope="col">Spin, rpm</th>
          <th scope="col">Half-width, rpm</th>
          <th scope="col">Flag</th>
        </tr>
      </thead>
      <tbody>
        {curves.flatMap(({ captureFps, points }) =>
          points.map(({ rpm, halfWidthRpm, flag }) => (
            <tr key={`${captureFps} ${rpm}`}>
              <th scope="row">{captureFps}</th>
              <td>{digits(rpm)}</td>
              <td>{halfWidthRpm === null ? 'none' : digits(halfWidthRpm)}</td>
              <td>{flag}</td>
            </tr>
          )),
        )}
      </tbody>
    </table>
  )
}

type Segment = { from: CurvePoint; to: CurvePoint; clear: boolean }

const isClear = ({ flag }: CurvePoint) => flag === 'clear' || flag === 'near-ceiling'

/** The stretches between neighbouring spins that both have a figure. */
function segmentsOf(points: CurvePoint[]): Segment[] {
  return points.slice(1).flatMap((to, i) => {
    const from = points[i]!
    if (from.halfWidthRpm === null || to.halfWidthRpm === null) return []
    return [{ from, to, clear: isClear(from) && isClear(to) }]
  })
}

/** Where each curve's word stands at the right: at its last figure, moved down where words would touch. */
function endsOf(curves: Curve[], y: (half: number) => number): Map<number, number> {
  const last = curves.flatMap(({ captureFps, points }) => {
    const half = points.findLast(point => point.halfWidthRpm !== null)?.halfWidthRpm
    return half == null ? [] : [{ captureFps, at: y(half) }]
  })
  last.sort((a, b) => a.at - b.at)
  last.forEach((each, i) => {
    if (i > 0) each.at = Math.max(each.at, last[i - 1]!.at + 16)
  })
  return new Map(last.map(({ captureFps, at }) => [captureFps, at]))
}
