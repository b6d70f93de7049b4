import { useState } from 'react'
import type { ListedHit } from '../../../core/contract/workspace.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'

/** A hit's notes, kept as soon as the field is left. */
export function Notes({ hit }: { hit: ListedHit }) {
  const host = useHost()
  const act = useAct()
  const [text, setText] = useState(hit.notes)
  const keep = () => {
    if (text !== hit.notes) act.run(() => host.call('hits.note', { hitId: hit.hitId, notes: text }))
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
