import { useMemo, useRef } from 'react'
import { shownFrames, timeAxis } from '../../../../core/picture/time-axis.ts'
import { ProblemNote } from '../../../components/problem-note.tsx'
import { useLetterScale } from '../../../components/use-letter-scale.ts'
import { useBench } from '../state/use-bench.ts'
import { useSize } from '../use-size.ts'
import { AxisLabels } from './axis-labels.tsx'
import { BearingPlot } from './bearing-plot.tsx'
import { usePrefetch } from './prefetch.ts'
import { ResidualPlot } from './residual-plot.tsx'
import { Strip } from './strip.tsx'
import { TimeTouch } from './time-touch.tsx'
import { TurnedBackSheet } from './turned-back-sheet.tsx'

/** Room for the labels of the plots, in letters of the usual size, left of everything on the time axis. */
const usualGutterPx = 64
const rightPx = 16

/** Pictures, bearings and residuals on one time axis: what belongs to a frame stands in one column. */
export function Timeline() {
  const element = useRef<HTMLDivElement>(null)
  const { width } = useSize(element)
  const gutterPx = usualGutterPx * useLetterScale(element)
  const window = useBench(state => state.marks.window)
  const timesSeconds = useBench(state => state.timesSeconds)
  const wholeClip = useBench(state => state.wholeClip)
  const outside = useBench(state => {
    const { fromFrame, toFrame } = shownFrames(state.marks.window, state.timesSeconds.length, state.wholeClip)
    return state.frame < fromFrame || state.frame > toFrame ? state.frame : null
  })
  const problem = useBench(state => state.problem)
  const turnedBack = useBench(state => state.turnedBack && state.live.reading?.axis != null)
  const set = useBench(state => state.set)

  const axis = useMemo(() => {
    const shown = shownFrames(window, timesSeconds.length, wholeClip)
    return timeAxis(timesSeconds, {
      fromFrame: Math.min(shown.fromFrame, outside ?? shown.fromFrame),
      toFrame: Math.max(shown.toFrame, outside ?? shown.toFrame),
      leftPx: gutterPx,
      rightPx: Math.max(gutterPx + 50, width - rightPx),
    })
  }, [window, timesSeconds, wholeClip, outside, width, gutterPx])
  usePrefetch(axis)

  return (
    <section className="time" ref={element} aria-label="Time">
      <Strip axis={axis} />
      {turnedBack ? (
        <TurnedBackSheet />
      ) : (
        <>
          <BearingPlot axis={axis} />
          <ResidualPlot axis={axis} />
          <AxisLabels axis={axis} />
          <TimeTouch axis={axis} />
        </>
      )}
      {problem?.place === 'time' && (
        <div className="time-note">
          <ProblemNote problem={problem.problem} onForget={() => set({ problem: null })} />
        </div>
      )}
    </section>
  )
}
