import type { CheckEvidence } from '../../../core/contract/checks.ts'
import { roundTicks } from '../../../core/picture/ticks.ts'

const size = { width: 640, height: 220 }
const edge = { left: 52, right: 16, top: 20, bottom: 36 }

/** What a check rests on, drawn. */
export function EvidencePlot({ evidence }: { evidence: CheckEvidence }) {
  const { points, joined, xWords, yWords, lines } = evidence
  const rangeOf = (values: number[]) => {
    const [low, high] = [Math.min(...values), Math.max(...values)]
    return { low, high: high > low ? high : low + 1 }
  }
  const xs = rangeOf(points.map(([x]) => x))
  const ys = rangeOf(points.map(([, y]) => y))
  const x = (value: number) =>
    edge.left + ((value - xs.low) / (xs.high - xs.low)) * (size.width - edge.left - edge.right)
  const y = (value: number) =>
    size.height -
    edge.bottom -
    ((value - ys.low) / (ys.high - ys.low)) * (size.height - edge.top - edge.bottom)
  const ticksOf = (range: typeof xs, most: number) => roundTicks(range.low, range.high, most)
  return (
    <figure className="evidence-plot">
      <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-label={`${yWords} against ${xWords}`}>
        {ticksOf(ys, 4).map(tick => (
          <g key={tick}>
            <line
              className="evidence-plot-grid"
              x1={edge.left}
              x2={size.width - edge.right}
              y1={y(tick)}
              y2={y(tick)}
            />
            <text x={edge.left - 8} y={y(tick) + 4} textAnchor="end">
              {Number(tick.toPrecision(4))}
            </text>
          </g>
        ))}
        {ticksOf(xs, 8).map(tick => (
          <text key={tick} x={x(tick)} y={size.height - 18} textAnchor="middle">
            {Number(tick.toPrecision(4))}
          </text>
        ))}
        {lines.map(line => (
          <g key={line.word}>
            <line
              className="evidence-plot-line"
              x1={x(line.x)}
              x2={x(line.x)}
              y1={edge.top - 4}
              y2={size.height - edge.bottom}
            />
            <text x={x(line.x)} y={edge.top - 8} textAnchor="middle">
              {line.word}
            </text>
          </g>
        ))}
        {joined ? (
          <polyline
            className="evidence-plot-run"
            points={points.map(([a, b]) => `${x(a).toFixed(1)},${y(b).toFixed(1)}`).join(' ')}
          />
        ) : (
          points.map(([a, b]) => <circle key={a} className="evidence-plot-dot" cx={x(a)} cy={y(b)} r="3" />)
        )}
        <text x={size.width - edge.right} y={size.height - 3} textAnchor="end">
          {xWords}
        </text>
      </svg>
      <figcaption className="quiet">{yWords[0]?.toUpperCase() + yWords.slice(1)}</figcaption>
    </figure>
  )
}
