import type { Candidate } from '../../../../core/contract/reading.ts'
import { digits } from '../../../components/figure-text.ts'
import { ReasonForm } from '../../../components/reason-form.tsx'
import { useBenchStore } from '../state/use-bench.ts'

/** Settles which rate it was. The reason travels with the reading, so there is none without one. */
export function SettleForm({ candidate, onDone }: { candidate: Candidate; onDone: () => void }) {
  const store = useBenchStore()
  const { rpm, sense } = candidate
  if (sense === null) return <p className="quiet">It has no sense, so it cannot be chosen.</p>
  return (
    <ReasonForm
      ask={`How do you know it was ${digits(rpm)} ${sense}?`}
      example="The shot was topspin"
      step="Settle on it"
      onReason={reason => {
        if (store.getState().edit('reading', { kind: 'settle', settled: { rpm, sense, reason } })) onDone()
      }}
      onCancel={onDone}
    />
  )
}
