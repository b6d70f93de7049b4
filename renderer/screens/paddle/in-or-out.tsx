import { useState } from 'react'
import type { Verdict } from '../../../core/contract/bench.ts'
import type { PaddleHit } from '../../../core/contract/standings.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { ReasonForm } from '../../components/reason-form.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'

/** Leaves a hit out of the mean with a reason, or brings it back. Both are kept with the hit. */
export function InOrOut({ hit: { hitId, leftOut, mishit, rpm } }: { hit: PaddleHit }) {
  const host = useHost()
  const act = useAct()
  const [asking, setAsking] = useState(false)
  const decide = async (verdict: Verdict) => {
    const done = await act.run(() => host.call('hits.edit', { hitId, edit: { kind: 'decide', verdict } }))
    if (done) setAsking(false)
  }
  const leave = (why: string) => decide({ state: 'held-back', reason: why })
  return (
    <>
      {leftOut && (
        <p>
          <span className="in-or-out-by">{leftOut.by === 'rule' ? 'Out by rule' : 'Out by hand'}</span>{' '}
          {leftOut.reason.replace(/^Held back by hand: /, '')}
        </p>
      )}
      {mishit && leftOut === null && !asking && (
        <p className="in-or-out-mishit">
          {mishit}{' '}
          <button type="button" className="plain" disabled={act.busy} onClick={() => leave(mishit)}>
            Leave out
          </button>
        </p>
      )}
      {!asking ? (
        leftOut ? (
          rpm !== null && (
            <button
              type="button"
              className="plain"
              disabled={act.busy}
              onClick={() => decide({ state: 'accepted', reason: '' })}
            >
              Bring back
            </button>
          )
        ) : (
          <button type="button" className="plain" onClick={() => setAsking(true)}>
            {mishit ? 'Leave out for another reason…' : 'Leave out…'}
          </button>
        )
      ) : (
        <ReasonForm
          ask="Why it is left out"
          askUnseen
          step="Leave out"
          busy={act.busy}
          onReason={leave}
          onCancel={() => setAsking(false)}
        />
      )}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </>
  )
}
