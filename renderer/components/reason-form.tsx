import './reason-form.css'
import { useState } from 'react'

type ReasonFormProps = {
  ask: string
  /** The question is for ears alone where the step that opened the form has just said it. */
  askUnseen?: boolean
  example?: string
  /** The word on the button that does it. */
  step: string
  busy?: boolean
  onReason: (reason: string) => void
  onCancel: () => void
}

/** Asks a person why. Nothing is done without a reason; Escape leaves all as it was. */
export function ReasonForm(props: ReasonFormProps) {
  const { ask, askUnseen = false, example = 'Why', step, busy = false, onReason, onCancel } = props
  const [reason, setReason] = useState('')
  return (
    <form
      className="reason-form"
      onSubmit={event => {
        event.preventDefault()
        if (reason.trim()) onReason(reason.trim())
      }}
      onKeyDown={event => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        onCancel()
      }}
    >
      <label>
        <span className={askUnseen ? 'unseen' : undefined}>{ask}</span>
        <input
          // biome-ignore lint/a11y/noAutofocus: the person has just asked to say why.
          autoFocus
          maxLength={480}
          placeholder={example}
          value={reason}
          onChange={event => setReason(event.target.value)}
        />
      </label>
      <p>
        <button type="submit" disabled={busy || reason.trim() === ''}>
          {step}
        </button>
        <button type="button" className="plain" onClick={onCancel}>
          Cancel
        </button>
      </p>
    </form>
  )
}
