import { ReasonForm } from '../../../components/reason-form.tsx'
import { useBenchStore } from '../state/use-bench.ts'

/** Keeps a reading out of the paddle's figure, with the reason that will stand beside it. */
export function HoldBackForm({ onDone }: { onDone: () => void }) {
  const store = useBenchStore()
  return (
    <ReasonForm
      ask="Why is it held back?"
      example="The ball clipped the net"
      step="Hold back"
      onReason={reason => {
        const verdict = { state: 'held-back' as const, reason }
        if (store.getState().edit('reading', { kind: 'decide', verdict })) onDone()
      }}
      onCancel={onDone}
    />
  )
}
