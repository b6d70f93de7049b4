import { useState } from 'react'
import type { Session } from '../../../core/contract/workspace.ts'
import { counted } from '../../components/counted.ts'
import { FileChooser } from '../../components/file-chooser.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { RemoveStep } from '../../components/remove-step.tsx'
import { useHost } from '../../host/host.ts'
import { hrefOf } from '../../state/route.ts'
import type { Adding } from './use-adding.ts'

type SessionStepsProps = { session: Session; adding: Adding; onEdit: () => void }

/** What can be done with an open session: add clips, change what is known, remove it. */
export function SessionSteps({ session, adding, onEdit }: SessionStepsProps) {
  const host = useHost()
  const [choosing, setChoosing] = useState(false)
  const { act } = adding
  return (
    <>
      <div className="session-steps">
        {session.notes && <p className="session-notes">{session.notes}</p>}
        <button
          type="button"
          className={session.clips === 0 ? 'main' : undefined}
          disabled={act.busy || choosing}
          onClick={() => setChoosing(true)}
        >
          Add clips…
        </button>
        <span className="quiet">or drop them anywhere</span>
        <span className="session-steps-rest">
          {session.hits > 0 && (
            <a className="quiet" href={hrefOf({ screen: 'study', sessionId: session.id })}>
              Marking study
            </a>
          )}
          {session.hits > 0 && (
            <a className="quiet" href={hrefOf({ screen: 'publish', of: 'session', ids: [session.id] })}>
              Publish the session
            </a>
          )}
          <button type="button" className="plain" onClick={onEdit}>
            Change what is known
          </button>
          <RemoveStep
            word="Remove session"
            loses={`${counted(session.clips, 'clip')} and ${counted(session.hits, 'hit')} leave the workspace; the files stay.`}
            onRemove={() => host.call('sessions.remove', { sessionId: session.id })}
          />
        </span>
      </div>
      {choosing && (
        <FileChooser
          purpose="clips"
          verb="Add"
          onChosen={paths => {
            setChoosing(false)
            adding.add(session.id, { paths })
          }}
          onCancel={() => setChoosing(false)}
        />
      )}
      {act.busy && <Progress progress={act.progress} what="Adding clips" onCancel={act.cancel} />}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </>
  )
}
