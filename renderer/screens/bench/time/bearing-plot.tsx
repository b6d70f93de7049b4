import { useMemo, useRef } from 'react'
import { degOnLine, laidOn, type Series, spread } from '../../../../core/picture/series.ts'
import { angleTicks } from '../../../../core/picture/ticks.ts'
import type { TimeAxis } from '../../../../core/picture/time-axis.ts'
import { digits } from '../../../components/figure-text.ts'
import { MarkGlyph } from '../stage/mark-look.tsx'
import { useBench } from '../state/use-bench.ts'
import { useSize } from '../use-size.ts'
import { signedDegPerSecond } from './overlay.ts'
import { PointTable } from './point-table.tsx'

const roomPx = 8

/** Bearing against time: the points unwrapped onto the fit, its line, and another candidate laid over. */
export function BearingPlot({ axis }: { axis: TimeAxis }) {
  const element = useRef<HTMLDivElement>(null)
  const { height } = useSize(element)
  const live = useBench(state => state.live)
  const overlaid = useBench(state => state.overlaid)
  const timesSeconds = useBench(state => state.timesSeconds)
  const candidate = overlaid === null ? null : (live.reading?.candidates[overlaid] ?? null)
  const laid = useMemo(
    () => (candidate ? live.series.map(each => laidOn(each, signedDegPerSecond(candidate))) : []),
    [candidate, live],
  )
  const span = spanOf(live.series, laid)
  const y = (deg: number) => roomPx + ((span.high - deg) / (span.high - span.low)) * (height - 2 * roomPx)
  const ends = [timesSeconds[axis.fromFrame] ?? 0, timesSeconds[axis.toFrame] ?? 0] as const
  const isPhase = live.reading?.method === 'sphere'

  return (
    <div className="plot bearing-plot" ref={element}>
      <svg width={axis.rightPx} height={height} aria-hidden="true">
        <clipPath id="bearing-clip">
          <rect x={axis.leftPx} y={0} width={axis.rightPx - axis.leftPx} height={Math.max(0, height)} />
        </clipPath>
        {angleTicks(span.low, span.high, Math.max(2, height / 28)).map(deg => (
          <g key={deg}>
            <line className="grid" x1={axis.leftPx} x2={axis.rightPx} y1={y(deg)} y2={y(deg)} />
            <text className="figure" x={axis.leftPx - 6} y={y(deg) + 4} textAnchor="end">
              {digits(deg)}°
            </text>
          </g>
        ))}
        <g clipPath="url(#bearing-clip)">
          {laid.map(series => (
            <g key={series.mark.id} className="laid">
              {series.line && <FitLine axis={axis} y={y} ends={ends} line={series.line} />}
              <Points
                axis={axis}
                y={y}
                series={series}
                index={live.series.findIndex(s => s.mark === series.mark)}
                hollow
              />
            </g>
          ))}
          {live.series.map((series, index) => (
            <g key={series.mark.id} className="fitted">
              {series.line && <FitLine axis={axis} y={y} ends={ends} line={series.line} />}
              <Points axis={axis} y={y} series={series} index={index} />
              {series.hiddenFrames.map(frame => (
                <circle
                  key={frame}
                  className="hidden-point"
                  cx={axis.x(frame)}
                  cy={series.line ? y(degOnLine(series.line, timesSeconds[frame] ?? 0)) : height - 8}
                  r={4}
                />
              ))}
            </g>
          ))}
        </g>
        <text className="plot-name" transform={`translate(12 ${height / 2}) rotate(-90)`} textAnchor="middle">
          {isPhase ? 'turned' : 'bearing'}
        </text>
      </svg>
      <PointTable
        series={live.series}
        name={isPhase ? 'Angle turned against time' : 'Bearing against time'}
      />
    </div>
  )
}

/** The reading's own points always fit; a candidate may widen the range, but not until they are a flat line. */
function spanOf(own: Series[], laid: Series[]): { low: number; high: number } {
  const degs = (all: Series[]) => all.flatMap(series => series.points.map(point => point.deg))
  const fitted = spread(degs(own), 0.06)
  if (!fitted || own.every(series => series.line === null)) return { low: 0, high: 360 }
  const all = spread([...degs(own), ...degs(laid)], 0.06) ?? fitted
  const most = 2 * (fitted.high - fitted.low)
  return { low: Math.max(all.low, fitted.low - most), high: Math.min(all.high, fitted.high + most) }
}

type LineProps = {
  axis: TimeAxis
  y: (deg: number) => number
  ends: readonly [number, number]
  line: NonNullable<Series['line']>
}

function FitLine({ axis, y, ends: [from, to], line }: LineProps) {
  return (
    <line
      className="fit-line"
      x1={axis.xOfTime(from)}
      x2={axis.xOfTime(to)}
      y1={y(degOnLine(line, from))}
      y2={y(degOnLine(line, to))}
    />
  )
}

type PointsProps = {
  axis: TimeAxis
  y: (deg: number) => number
  series: Series
  index: number
  hollow?: boolean
}

function Points({ axis, y, series, index, hollow = false }: PointsProps) {
  return series.points.map(point => (
    <MarkGlyph
      key={point.frame}
      index={index}
      x={axis.x(point.frame)}
      y={y(point.deg)}
      size={hollow ? 3.5 : 4}
      hollow={hollow || point.weight < 0.5}
    />
  ))
}
