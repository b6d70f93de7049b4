import { roundTicks } from '../../../../core/picture/ticks.ts'
import type { TimeAxis } from '../../../../core/picture/time-axis.ts'
import { useBench } from '../state/use-bench.ts'

const heightPx = 20

/** The time below the plots, in milliseconds from the hit's first frame. */
export function AxisLabels({ axis }: { axis: TimeAxis }) {
  const timesSeconds = useBench(state => state.timesSeconds)
  const fromFrame = useBench(state => state.marks.window.fromFrame)
  const zero = timesSeconds[fromFrame] ?? 0
  const msOf = (frame: number) => ((timesSeconds[frame] ?? zero) - zero) * 1000
  const ticks = roundTicks(msOf(axis.fromFrame), msOf(axis.toFrame), 8)
  return (
    <svg className="axis-labels" width={axis.rightPx + 16} height={heightPx} aria-hidden="true">
      {ticks.map(ms => (
        <text key={ms} className="figure" x={axis.xOfTime(zero + ms / 1000)} y={14} textAnchor="middle">
          {Math.round(ms * 1000) / 1000}
        </text>
      ))}
      <text x={8} y={14}>
        time, ms
      </text>
    </svg>
  )
}
