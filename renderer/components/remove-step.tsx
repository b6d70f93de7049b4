import { useState } from 'react'
import { useAct } from '../state/answers.ts'
import { ProblemNote } from './problem-note.tsx'

type RemoveStepProps = {
  word: string
  loses: string
  yes?: string
  no?: string
  onRemove: () => Promise<unknown>
}

/** A step that takes something away: it says what is lost, in place, and asks once. */
export function RemoveStep({ word, loses, yes = 'Remove', no = 'Keep', onRemove }: RemoveStepProps) {
  const [asking, setAsking] = useState(false)
  const act = useAct()
  if (act.problem) return <ProblemNote problem={act.problem} onForget={act.forget} />
  if (!asking) {
    return (
      <button type="button" className="plain" onClick={() => setAsking(true)}>
        {word}
      </button>
    )
  }
  return (
    <span className="remove-step">
      {loses}{' '}
      <button type="button" className="plain" disabled={act.busy} onClick={() => act.run(onRemove)}>
        {yes}
      </button>{' '}
      <button
        type="button"
        className="plain"
        // biome-ignore lint/a11y/noAutofocus: the safe answer takes the place of the button just pressed.
        autoFocus
        onClick={() => setAsking(false)}
      >
        {no}
      </button>
    </span>
  )
}
