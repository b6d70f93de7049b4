import { useEffect, useState } from 'react'
import { Field } from '../../components/field.tsx'

type NumberFieldProps = {
  label: string
  unit: string
  /** Null: as it comes, an empty field. */
  value: number | null
  least: number
  most: number
  whole?: boolean
  hint?: string
  onNumber: (value: number | null) => void
}

/** A number to fill in. What cannot be used stays in the field with the reason, and changes nothing. */
export function NumberField({ label, unit, value, least, most, whole, hint, onNumber }: NumberFieldProps) {
  const [text, setText] = useState(shown(value))
  useEffect(() => setText(last => (numberOf(last) === value ? last : shown(value))), [value])
  const change = (next: string) => {
    setText(next)
    const number = numberOf(next)
    if (number === null ? hint !== undefined && next.trim() === '' : isIn(number)) onNumber(number)
  }
  const isIn = (number: number) => number >= least && number <= most && (!whole || Number.isInteger(number))
  const number = numberOf(text)
  const isUsable = number === null ? hint !== undefined && text.trim() === '' : isIn(number)
  return (
    <Field
      label={label}
      unit={unit}
      text={text}
      onText={change}
      {...(hint === undefined ? {} : { hint })}
      problem={isUsable ? undefined : `${least} to ${most}`}
    />
  )
}

const shown = (value: number | null) => (value === null ? '' : String(value))
const numberOf = (text: string): number | null =>
  text.trim() === '' || Number.isNaN(Number(text.replace(',', '.'))) ? null : Number(text.replace(',', '.'))
