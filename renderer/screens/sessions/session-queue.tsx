import type { QueueEntry } from '../../../core/contract/queue.ts'
import type { Session } from '../../../core/contract/workspace.ts'
import { counted } from '../../components/counted.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'

type SessionQueueProps = { session: Session; entries: QueueEntry[]; unread: number }

/** Has all clips of a session read, one after the other; it goes on when the page is left. */
export function SessionQueue({ session, entries, unread }: SessionQueueProps) {
  const host = useHost()
  const act = useAct()
  const ask = (name: 'queue.start' | 'queue.cancel') => () => {
    act.run(() => host.call(name, { sessionId: session.id }))
  }
  const here = entries.filter(({ state }) => state !== 'elsewhere')
  const open = here.filter(({ state }) => state === 'waiting' || state === 'reading').length
  const failed = entries.filter(({ state }) => state === 'failed').length
  if (open === 0 && unread === 0) return null
  return (
    <div className="session-queue">
      {open > 0 ? (
        <Progress
          progress={{ what: 'Reading the clips', done: here.length - open, total: here.length }}
          what="Reading the clips"
          onCancel={ask('queue.cancel')}
        />
      ) : (
        <button type="button" disabled={act.busy} onClick={ask('queue.start')}>
          Read {counted(unread, 'clip')} by itself
        </button>
      )}
      {failed > 0 && <span className="quiet">{counted(failed, 'clip')} could not be read.</span>}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </div>
  )
}
