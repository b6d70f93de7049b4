import type { Session } from '../../../core/contract/workspace.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { statedPx } from './study-words.ts'

type UseClickErrorProps = { session: Session; px: number; insteadPx: number | null }

/** Takes the figure over as the session's own click error; its readings follow at once. */
export function UseClickError({ session, px, insteadPx }: UseClickErrorProps) {
  const host = useHost()
  const act = useAct()
  const before = session.clickStandardUncertaintyPx
  const use = (stated: number) =>
    act.run(() =>
      host.call('sessions.update', {
        sessionId: session.id,
        details: { ...session, clickStandardUncertaintyPx: stated },
      }),
    )
  return (
    <div className="study-use">
      {before === statedPx(px) ? (
        <p>{before}&nbsp;px is this session’s own click error now.</p>
      ) : (
        <button type="button" className="main" disabled={act.busy} onClick={() => use(statedPx(px))}>
          Use {statedPx(px)}&nbsp;px as this session’s own click error
        </button>
      )}
      {insteadPx !== null && before !== statedPx(insteadPx) && (
        <button type="button" className="plain" disabled={act.busy} onClick={() => use(statedPx(insteadPx))}>
          or {statedPx(insteadPx)}&nbsp;px, without outliers
        </button>
      )}
      {before !== statedPx(px) && (
        <span className="quiet">
          {before === null ? 'None is stated so far.' : `So far ${before}\u00a0px.`}
        </span>
      )}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </div>
  )
}
