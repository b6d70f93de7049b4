import './bench.css'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { Bench } from './bench.tsx'
import { useOpenedHit } from './open-hit.ts'
import { FramesProvider } from './picture/use-frames.ts'
import { BenchProvider } from './state/use-bench.ts'

/** The bench for one hit: the ball in the middle, time below, the reading on the right. */
export function BenchScreen({ hitId }: { hitId: string }) {
  const { opened, problem, again } = useOpenedHit(hitId)
  if (problem)
    return (
      <div className="bench-empty">
        <ProblemNote problem={problem} onAgain={again} />
      </div>
    )
  if (!opened)
    return (
      <div className="bench-empty">
        <Progress progress={null} what="The clip is being opened" />
      </div>
    )
  return (
    <BenchProvider value={opened.store}>
      <FramesProvider value={opened.frames}>
        <Bench />
      </FramesProvider>
    </BenchProvider>
  )
}
