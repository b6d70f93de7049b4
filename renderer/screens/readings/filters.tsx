import type { Ref } from 'react'
import { type Flag, flagSchema } from '../../../core/contract/reading.ts'
import { digits } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import { verdictWords } from '../../components/verdict-words.ts'
import type { FlagCounts, View } from './table-view.ts'

type FiltersProps = {
  view: View
  onView: (change: Partial<View>) => void
  counts: FlagCounts
  paddles: string[]
  search: Ref<HTMLInputElement>
}

/** What the table shows: words, flags, one paddle, one verdict. */
export function Filters({ view, onView, counts, paddles, search }: FiltersProps) {
  const toggle = (flag: Flag) =>
    onView({
      flags: view.flags.includes(flag) ? view.flags.filter(each => each !== flag) : [...view.flags, flag],
    })
  return (
    <search className="filters">
      <input
        ref={search}
        type="search"
        aria-label="Search paddle, set-up, day, clip or note"
        aria-keyshortcuts="/"
        placeholder="Search  /"
        value={view.search}
        onChange={event => onView({ search: event.target.value })}
      />
      <fieldset aria-label="Flags">
        {flagSchema.options.map(flag => (
          <button
            key={flag}
            type="button"
            aria-pressed={view.flags.includes(flag)}
            onClick={() => toggle(flag)}
          >
            <FlagMark flag={flag} /> <span className="figure quiet">{digits(counts[flag])}</span>
          </button>
        ))}
      </fieldset>
      <select
        aria-label="Paddle"
        value={view.paddle ?? ''}
        onChange={event => onView({ paddle: event.target.value || null })}
      >
        <option value="">any paddle</option>
        {paddles.map(paddle => (
          <option key={paddle}>{paddle}</option>
        ))}
      </select>
      <select
        aria-label="Verdict"
        value={view.verdict ?? ''}
        onChange={event => onView({ verdict: (event.target.value || null) as View['verdict'] })}
      >
        <option value="">any verdict</option>
        {Object.entries(verdictWords).map(([state, word]) => (
          <option key={state} value={state}>
            {word}
          </option>
        ))}
      </select>
    </search>
  )
}
