import type { CheckEvidence } from '../../../core/contract/checks.ts'
import { roundTicks } from '../../../core/picture/ticks.ts'

const size = { width: 640, height: 220 }
const edge = { left: 52, right: 16, top: 20, bottom: 36 }

/** What a check rests on, drawn. */
export function EvidencePlot({ evidence }: { evidence: CheckEvidence }) {
  const { points, joined, xWords, yWords, lines, fit } = evidence
  const rangeOf = (values: number[]) => {
    const [low, high] = [Math.min(...values), Math.max(...values)]
    return { low, high: high > low ? high : low + 1 }
  }
  const seen = [...points, ...(fit ?? [])]
  const xs = rangeOf(seen.map(([x]) => x))
  const ys = rangeOf(seen.map(([, y]) => y))
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
              {short(tick)}
            </text>
          </g>
        ))}
        {ticksOf(xs, 8).map(tick => (
          <text key={tick} x={x(tick)} y={size.height - 18} textAnchor="middle">
            {short(tick)}
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
          points.map(([a, b]) => (
            <circle key={`${a} ${b}`} className="evidence-plot-dot" cx={x(a)} cy={y(b)} r="3" />
          ))
        )}
        {fit && (
          <line
            className="evidence-plot-fit"
            x1={x(fit[0][0])}
            y1={y(fit[0][1])}
            x2={x(fit[1][0])}
            y2={y(fit[1][1])}
          />
        )}
        <text x={size.width - edge.right} y={size.height - 3} textAnchor="end">
          {xWords}
        </text>
      </svg>
      <EvidenceTable evidence={evidence} />
      <figcaption className="quiet">{capital(yWords)}</figcaption>
    </figure>
  )
}

const capital = (words: string) => `${words[0]?.toUpperCase()}${words.slice(1)}`
const short = (value: number) => String(Number(value.toPrecision(4))).replace('-', '−')

/** The points, the places worth a line and the line through them as a table for ears. */
function EvidenceTable({ evidence: { points, xWords, yWords, lines, fit } }: { evidence: CheckEvidence }) {
  return (
    <table className="unseen">
      <caption>
        {capital(yWords)} against {xWords}.{' '}
        {fit && `The line through them goes from ${fit.map(end => end.map(short).join('; ')).join(' to ')}.`}
        {lines.map(({ x, word }) => ` ${capital(word)} at ${short(x)}.`)}
      </caption>
      <thead>
        <tr>
          <th scope="col">{capital(xWords)}</th>
          <th scope="col">{capital(yWords)}</th>
        </tr>
      </thead>
      <tbody>
        {points.map(([x, y], i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: points have no other name, and two may be alike
          <tr key={i}>
            <th scope="row">{short(x)}</th>
            <td>{short(y)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
