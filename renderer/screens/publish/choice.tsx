import { useId } from 'react'

type ChoiceProps<T extends string> = {
  label: string
  value: T | ''
  options: readonly (readonly [T, string])[]
  onChoose: (value: T) => void
  /** What stands there while nothing is chosen. */
  none?: string
}

/** One of a few words, its label above. */
export function Choice<T extends string>({ label, value, options, onChoose, none }: ChoiceProps<T>) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={event => event.target.value !== '' && onChoose(event.target.value as T)}
      >
        {none !== undefined && <option value="">{none}</option>}
        {options.map(([option, words]) => (
          <option key={option} value={option}>
            {words}
          </option>
        ))}
      </select>
    </div>
  )
}
