import { useId } from 'react'

type ColourFieldProps = { label: string; value: string; onColour: (value: string) => void }

/** A colour of the person's own. */
export function ColourField({ label, value, onColour }: ColourFieldProps) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <div className="field-entry">
        <input id={id} type="color" value={value} onChange={event => onColour(event.target.value)} />
        <span className="figure quiet">{value}</span>
      </div>
    </div>
  )
}
