import type { Ref } from 'react'
import { type Flag, flagSchema } from '../../../core/contract/reading.ts'
import { flagWords } from '../../components/flag-mark.tsx'
import type { Choice, View } from './table-view.ts'

type FiltersProps = {
  view: View
  onView: (change: Partial<View>) => void
  tiers: string[]
  choices: Choice[]
  search: Ref<HTMLInputElement>
}

/** What the table shows: words, a tier, a flag, and kinds of paddles by what else is known of them. */
export function Filters({ view, onView, tiers, choices, search }: FiltersProps) {
  const chooseValue = (column: number, value: string) => {
    const { [column]: _, ...others } = view.values
    onView({ values: value === '' ? others : { ...others, [column]: value } })
  }
  return (
    <search className="paddles-filters">
      <input
        ref={search}
        type="search"
        aria-label="Search paddle or set-up"
        aria-keyshortcuts="/"
        placeholder="Search  /"
        value={view.search}
        onChange={event => onView({ search: event.target.value })}
      />
      <Select label="Tier" any="any tier" value={view.tier} onValue={tier => onView({ tier })}>
        {tiers.map(tier => [tier, tier])}
      </Select>
      <Select
        label="Flag"
        any="any flag"
        value={view.flag}
        onValue={flag => onView({ flag: flag as Flag | null })}
      >
        {flagSchema.options.map(flag => [flag, flagWords[flag]])}
      </Select>
      {choices.map(({ column, name, values }) => (
        <Select
          key={column}
          label={name}
          any={`any ${name}`}
          value={view.values[column] ?? null}
          onValue={value => chooseValue(column, value ?? '')}
        >
          {values.map(value => [value, `${name} ${value}`])}
        </Select>
      ))}
    </search>
  )
}

type SelectProps = {
  label: string
  any: string
  value: string | null
  onValue: (value: string | null) => void
  children: [value: string, words: string][]
}

function Select({ label, any, value, onValue, children }: SelectProps) {
  return (
    <select aria-label={label} value={value ?? ''} onChange={event => onValue(event.target.value || null)}>
      <option value="">{any}</option>
      {children.map(([each, words]) => (
        <option key={each} value={each}>
          {words}
        </option>
      ))}
    </select>
  )
}
