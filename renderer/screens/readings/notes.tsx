import { useEffect, useState } from 'react'
import type { ListedHit } from '../../../core/contract/workspace.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { onItsWay } from '../../state/on-its-way.ts'

/** A hit's notes, kept as soon as the field or the page is left. */
export function Notes({ hit }: { hit: ListedHit }) {
  const host = useHost()
  const act = useAct()
  const [text, setText] = useState(hit.notes)
  const { hitId, notes } = hit
  // Words that are still being written are not lost with the page.
  useEffect(() => {
    if (text === notes) return
    const call = { callId: crypto.randomUUID(), name: 'hits.note' as const, input: { hitId, notes: text } }
    return onItsWay.enter({
      calls: () => [call],
      written: async () => void (await host.call(call.name, call.input, { callId: call.callId })),
    })
  }, [text, notes, hitId, host])
  const keep = () => {
    if (text !== notes) act.run(() => host.call('hits.note', { hitId, notes: text }))
  }
  return (
    <>
      <textarea
        aria-label="Notes"
        rows={2}
        maxLength={2000}
        placeholder="What should be remembered of this hit"
        value={text}
        onChange={event => setText(event.target.value)}
        onBlur={keep}
      />
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </>
  )
}
