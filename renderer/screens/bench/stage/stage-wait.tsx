import { ProblemNote } from '../../../components/problem-note.tsx'
import { Progress } from '../../../components/progress.tsx'
import { problemShown } from '../../../host/host.ts'
import { useFrameState } from '../picture/use-frames.ts'

/** While a picture is on its way, or why it cannot be had. */
export function StageWait({ frame }: { frame: number }) {
  const { ready, failure } = useFrameState(frame)
  if (failure)
    return (
      <div className="stage-note">
        <ProblemNote problem={problemShown(failure)} />
      </div>
    )
  if (ready) return null
  return (
    <div className="stage-note">
      <Progress progress={null} what={`Frame ${frame} is being decoded`} />
    </div>
  )
}
