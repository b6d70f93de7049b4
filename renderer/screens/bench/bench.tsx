import { BenchFrame } from './bench-frame.tsx'
import { useBenchKeys } from './bench-keys.ts'
import { BenchLine } from './bench-line.tsx'
import { ReadItself } from './itself/read-itself.tsx'
import { ReadingColumn } from './reading/reading-column.tsx'
import { AskLine } from './stage/ask-line.tsx'
import { BallStage } from './stage/ball-stage.tsx'
import { FollowedMarks } from './stage/followed-marks.tsx'
import { FrameSteps } from './stage/frame-steps.tsx'
import { WholeFrame } from './stage/whole-frame.tsx'
import { useBench } from './state/use-bench.ts'
import { useRunning } from './state/use-running.ts'
import { Timeline } from './time/timeline.tsx'

/** Where everything on the bench stands. */
export function Bench() {
  useBenchKeys()
  useRunning()
  // Until the ball was shown once, the stage has the whole frame already.
  const isCopy = useBench(state => state.rim?.near === null && state.marks.outlines.length === 0)
  return (
    <BenchFrame>
      <BenchLine />
      {/* Dark in both themes: its ink stands on the grey that the picture is judged against. */}
      <section className="stage" data-theme="dark" aria-label="Stage">
        <div className="stage-left">
          <AskLine />
          <ReadItself />
          {!isCopy && <WholeFrame />}
        </div>
        <BallStage />
        <div className="stage-right">
          <FollowedMarks />
          <FrameSteps />
        </div>
      </section>
      <Timeline />
      <ReadingColumn />
    </BenchFrame>
  )
}
