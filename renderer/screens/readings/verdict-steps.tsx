import { useState } from 'react'
import type { Verdict } from '../../../core/contract/bench.ts'
import type { ListedHit } from '../../../core/contract/workspace.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { ReasonForm } from '../../components/reason-form.tsx'
import { provenanceWords } from '../../components/whose-reading.ts'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'

/** Accept a reading, or hold it back and say why. */
export function VerdictSteps({ hit }: { hit: ListedHit }) {
  const host = useHost()
  const act = useAct()
  const [asking, setAsking] = useState(false)
  const { state } = hit.verdict
  const decide = async (verdict: Verdict) => {
    const done = await act.run(() =>
      host.call('hits.edit', { hitId: hit.hitId, edit: { kind: 'decide', verdict } }),
    )
    if (done) setAsking(false)
  }
  return (
    <>
      {hit.provenance && <p className="quiet">{provenanceWords[hit.provenance]}</p>}
      {state === 'held-back' && <p>Held back: {hit.verdict.reason}</p>}
      {state === 'accepted' && <p>Accepted. It counts for its paddle.</p>}
      {!asking ? (
        <p className="verdict-steps">
          {state !== 'accepted' && (
            <button
              type="button"
              disabled={act.busy || hit.reading?.rpm == null}
              onClick={() => decide({ state: 'accepted', reason: '' })}
            >
              Accept
            </button>
          )}
          {state !== 'held-back' && (
            <button type="button" disabled={act.busy} onClick={() => setAsking(true)}>
              Hold back…
            </button>
          )}
          {state !== 'open' && (
            <button
              type="button"
              className="plain"
              disabled={act.busy}
              onClick={() => decide({ state: 'open', reason: '' })}
            >
              Leave open
            </button>
          )}
        </p>
      ) : (
        <ReasonForm
          ask="Why it is held back"
          askUnseen
          step="Hold back"
          busy={act.busy}
          onReason={reason => decide({ state: 'held-back', reason })}
          onCancel={() => setAsking(false)}
        />
      )}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </>
  )
}
