import { useRef } from 'react'
import { laidOn } from '../../../../core/picture/series.ts'
import type { TimeAxis } from '../../../../core/picture/time-axis.ts'
import { MarkGlyph } from '../stage/mark-look.tsx'
import { useBench } from '../state/use-bench.ts'
import { useSize } from '../use-size.ts'
import { signedDegPerSecond } from './overlay.ts'

const roomPx = 6
/** The scale never magnifies below this: a fraction of a degree is not worth the eye's worry. */
const leastDeg = 2
/** A mark that counts less than this is drawn open and does not make the scale. */
const trusted = 0.5

/** Seen minus fitted: what the line leaves over, with the band of the fit around zero. */
export function ResidualPlot({ axis }: { axis: TimeAxis }) {
  const element = useRef<HTMLDivElement>(null)
  const { height } = useSize(element)
  const live = useBench(state => state.live)
  const overlaid = useBench(state => state.overlaid)
  const timesSeconds = useBench(state => state.timesSeconds)
  const candidate = overlaid === null ? null : (live.reading?.candidates[overlaid] ?? null)
  const laid = candidate ? live.series.map(series => laidOn(series, signedDegPerSecond(candidate))) : []
  // The scale is made for the marks that count; one far off stands at the edge with its figure.
  const all = [...live.series, ...laid].flatMap(series =>
    series.points.filter(point => point.weight >= trusted).map(point => Math.abs(point.residualDeg ?? 0)),
  )
  const most = niceHalf(Math.max(leastDeg, ...all))
  const yOf = (deg: number) => height / 2 - (deg / most) * (height / 2 - roomPx)
  const y = (deg: number) => yOf(Math.max(-most, Math.min(most, deg)))
  const frames = Array.from({ length: axis.toFrame - axis.fromFrame + 1 }, (_, i) => axis.fromFrame + i)
  const half = frames.map(frame => ({ x: axis.x(frame), deg: live.bandHalfDeg(timesSeconds[frame] ?? 0) }))
  const at = ({ x, deg }: { x: number; deg: number }) => `${x.toFixed(1)},${yOf(deg).toFixed(1)}`

  return (
    <div className="plot residual-plot" ref={element}>
      <svg width={axis.rightPx} height={height} aria-hidden="true">
        <clipPath id="residual-clip">
          <rect x={axis.leftPx} y={0} width={axis.rightPx - axis.leftPx} height={Math.max(0, height)} />
        </clipPath>
        <g clipPath="url(#residual-clip)">
          {live.hasFit && (
            <polygon
              className="fit-band"
              points={[...half, ...half.toReversed().map(({ x, deg }) => ({ x, deg: -deg }))]
                .map(at)
                .join(' ')}
            />
          )}
          <line className="zero" x1={axis.leftPx} x2={axis.rightPx} y1={y(0)} y2={y(0)} />
          {laid.map((series, index) =>
            series.points.map(point => (
              <MarkGlyph
                key={`${series.mark.id} ${point.frame}`}
                index={index}
                x={axis.x(point.frame)}
                y={y(point.residualDeg ?? 0)}
                size={3}
                hollow
              />
            )),
          )}
          {live.series.map((series, index) =>
            series.points.map(
              point =>
                point.residualDeg !== null && (
                  <g key={`${series.mark.id} ${point.frame}`}>
                    <line
                      className="residual"
                      x1={axis.x(point.frame)}
                      x2={axis.x(point.frame)}
                      y1={y(0)}
                      y2={y(point.residualDeg)}
                    />
                    <MarkGlyph
                      index={index}
                      x={axis.x(point.frame)}
                      y={y(point.residualDeg)}
                      size={3}
                      hollow={point.weight < trusted}
                    />
                    {Math.abs(point.residualDeg) > most && (
                      <text
                        className="figure"
                        x={axis.x(point.frame) + 7}
                        y={y(point.residualDeg) + (point.residualDeg > 0 ? 8 : 2)}
                      >
                        {degrees(point.residualDeg)}
                      </text>
                    )}
                  </g>
                ),
            ),
          )}
        </g>
        {[most, -most].map(deg => (
          <text key={deg} className="figure" x={axis.leftPx - 6} y={y(deg) + 4} textAnchor="end">
            {degrees(deg)}
          </text>
        ))}
        <text className="plot-name" transform={`translate(12 ${height / 2}) rotate(-90)`} textAnchor="middle">
          off by
        </text>
      </svg>
    </div>
  )
}

const degrees = (deg: number) => `${deg > 0 ? '+' : '−'}${Math.abs(Math.round(deg))}°`

/** The smallest of 2, 5, 10, 20 … that is not less. */
function niceHalf(deg: number): number {
  for (let ten = 1; ; ten *= 10) for (const step of [1, 2, 5]) if (step * ten >= deg) return step * ten
}
