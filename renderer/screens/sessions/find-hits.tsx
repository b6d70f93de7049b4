import { useState } from 'react'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'

/** Finds the hits of one clip and reads them, while one waits. */
export function FindHits({ clipId, isFirst }: { clipId: string; isFirst: boolean }) {
  const host = useHost()
  const act = useAct()
  const [said, setSaid] = useState('')
  const find = () =>
    act.run(async options => setSaid((await host.call('clips.read', { clipId }, options)).said))
  if (act.busy) return <Progress progress={act.progress} what="Finding the ball" onCancel={act.cancel} />
  return (
    <>
      <button type="button" className={isFirst ? 'main' : ''} onClick={find}>
        Find the hits
      </button>
      {said && (
        <span className="quiet" role="status">
          {said}
        </span>
      )}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </>
  )
}
