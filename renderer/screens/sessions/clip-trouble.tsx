import { useState } from 'react'
import type { Problem } from '../../../core/contract/problem.ts'
import type { ClipRecord } from '../../../core/contract/workspace.ts'
import { FileChooser } from '../../components/file-chooser.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { RemoveStep } from '../../components/remove-step.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'

/** A clip that cannot be used: why, and the ways out. A moved file is shown where it went. */
export function ClipTrouble({ clip, problem }: { clip: ClipRecord; problem: Problem }) {
  const host = useHost()
  const act = useAct()
  const [choosing, setChoosing] = useState(false)
  const locate = (path: string) => {
    setChoosing(false)
    act.run(options => host.call('clips.locate', { clipId: clip.id, path }, options))
  }
  return (
    <>
      <ProblemNote problem={problem}>
        {problem.code === 'file-not-found' && !choosing && (
          <button type="button" className="plain" disabled={act.busy} onClick={() => setChoosing(true)}>
            Show where it went…
          </button>
        )}
        {clip.hits === 0 && (
          <RemoveStep
            word="Take it out"
            loses="The clip leaves this session; no marks are on it."
            onRemove={() => host.call('clips.remove', { clipId: clip.id })}
          />
        )}
      </ProblemNote>
      {choosing && (
        <FileChooser
          purpose="clips"
          single
          verb="This is it"
          onChosen={([path]) => path && locate(path)}
          onCancel={() => setChoosing(false)}
        />
      )}
      {act.busy && <Progress progress={act.progress} what="Comparing the file" onCancel={act.cancel} />}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </>
  )
}
