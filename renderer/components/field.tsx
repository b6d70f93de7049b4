import './field.css'
import { useId } from 'react'

type FieldProps = {
  label: string
  text: string
  onText: (text: string) => void
  unit?: string
  hint?: string
  problem?: string | undefined
  /** What the field was understood as. */
  note?: string | undefined
  wide?: boolean
  type?: 'text' | 'date'
  choices?: string[]
  required?: boolean
}

/** One line to fill in: its word above, its unit beside, what is wrong beneath. */
export function Field(props: FieldProps) {
  const { label, text, onText, unit, hint, problem, note, wide, type = 'text', choices, required } = props
  const id = useId()
  return (
    <div className="field" data-wide={wide}>
      <label htmlFor={id}>{label}</label>
      <div className="field-entry">
        <input
          id={id}
          type={type}
          value={text}
          onChange={event => onText(event.target.value)}
          placeholder={hint}
          required={required}
          autoComplete="off"
          spellCheck={false}
          list={choices && `${id}-choices`}
          aria-invalid={problem !== undefined}
          aria-describedby={problem && `${id}-problem`}
        />
        {unit && <span className="unit">{unit}</span>}
        {choices && (
          <datalist id={`${id}-choices`}>
            {choices.map(choice => (
              <option key={choice} value={choice} />
            ))}
          </datalist>
        )}
      </div>
      {note && !problem && <p className="field-note">{note}</p>}
      {problem && (
        <p id={`${id}-problem`} className="field-problem">
          {problem}
        </p>
      )}
    </div>
  )
}
