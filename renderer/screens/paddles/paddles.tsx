import './paddles.css'
import { useDeferredValue, useMemo, useRef, useState } from 'react'
import { counted } from '../../components/counted.ts'
import { digits } from '../../components/figure-text.ts'
import { definitionWords } from '../../components/place-words.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { toggleCompared, useCompared } from '../../state/compared.ts'
import { useKeys } from '../../state/keys.ts'
import { useRanks, useTable } from '../../state/ratings.ts'
import { go, hrefOf } from '../../state/route.ts'
import { rowSteps } from '../../state/row-steps.ts'
import { columnsOf, type Seen } from './columns.tsx'
import { Filters } from './filters.tsx'
import { OtherValues, useShownValues } from './other-values.tsx'
import { PaddlesTable } from './paddles-table.tsx'
import { RulesForm } from './rules-form.tsx'
import { tableScale } from './table-scale.ts'
import { choicesOf, rowsOf, type View, wholeView } from './table-view.ts'

/** Every paddle with its spin, its place among all, and what else is known of it. */
export function Paddles() {
  const { value: table, problem, progress, again } = useTable()
  const ranks = useRanks(table !== null)
  const [view, setView] = useState<View>(wholeView)
  const [at, setAt] = useState<string | null>(null)
  const [placing, setPlacing] = useState(false)
  const chosen = useCompared(state => state.setUpIds)
  const search = useRef<HTMLInputElement>(null)
  const [shownValues, setShownValues] = useShownValues(table)
  const shownView = useDeferredValue(view)
  const rows = useMemo(() => rowsOf(table?.rows ?? [], shownView), [table, shownView])
  const seen: Seen = useMemo(() => ({ scale: tableScale(table?.rows ?? []), ranks }), [table, ranks])
  const choices = useMemo(() => (table ? choicesOf(table) : []), [table])
  const tiers = useMemo(
    () => [...new Set(table?.rows.flatMap(row => (row.tier === null ? [] : [row.tier])))],
    [table],
  )
  const columns = useMemo(() => columnsOf(table?.columns ?? [], shownValues), [table, shownValues])
  const change = (part: Partial<View>) => setView(last => ({ ...last, ...part }))

  const current = rows.find(row => row.setUpId === at)
  useKeys('Paddles', [
    ...rowSteps(
      'paddle',
      rows.map(row => row.setUpId),
      at,
      setAt,
    ),
    {
      keys: ['Enter'],
      word: 'Open the paddle',
      run: () => current && go({ screen: 'paddle', paddleId: current.paddleId }),
    },
    {
      keys: ['x'],
      word: 'Choose for comparing',
      run: () => current && current.meanRpm !== null && toggleCompared(current.setUpId),
    },
    { keys: ['/'], word: 'Search', run: () => search.current?.focus() },
    {
      keys: ['Escape'],
      word: 'Leave the search',
      whileTyping: true,
      run: () => search.current?.blur(),
    },
  ])

  if (problem && !table) {
    return (
      <div className="paddles-message">
        <ProblemNote problem={problem} onAgain={again} />
      </div>
    )
  }
  if (!table) return <Progress progress={progress} what="Gathering the paddles" />
  if (table.rows.length === 0) {
    return (
      <div className="paddles-message">
        <h1>Paddles</h1>
        <p>Every paddle will stand here with its hits, its mean and its place among all.</p>
        <p>
          <a href={hrefOf({ screen: 'readings', hitId: null })}>Give a hit to a paddle</a> and accept it.
        </p>
      </div>
    )
  }
  return (
    <div className="paddles">
      <header>
        <h1>Paddles</h1>
        <p className="quiet" aria-live="polite">
          {rows.length === table.rows.length ? '' : `${digits(rows.length)} of `}
          {digits(table.rows.length)} set-ups
        </p>
        <Filters view={view} onView={change} tiers={tiers} choices={choices} search={search} />
      </header>
      <div className="paddles-steps">
        <p className="quiet">Percentile: {definitionWords[table.rules.percentileDefinition]}.</p>
        <button
          type="button"
          className="plain"
          aria-expanded={placing}
          onClick={() => setPlacing(last => !last)}
        >
          Percentiles, tiers, reference
        </button>
        <OtherValues table={table} shown={shownValues} onShown={setShownValues} />
        {chosen.length > 0 && (
          <span className="paddles-chosen">
            {counted(chosen.length, 'set-up')} chosen
            <a className="paddles-compare" href={hrefOf({ screen: 'compare', setUpIds: chosen })}>
              Compare
            </a>
            <button type="button" className="plain" onClick={() => useCompared.setState({ setUpIds: [] })}>
              Choose none
            </button>
          </span>
        )}
      </div>
      {placing && (
        <RulesForm key={JSON.stringify(table.rules)} table={table} onDone={() => setPlacing(false)} />
      )}
      {problem && <ProblemNote problem={problem} />}
      <PaddlesTable
        rows={rows}
        columns={columns}
        seen={seen}
        sort={view.sort}
        onSort={sort => change({ sort })}
        at={at}
        onAt={setAt}
        chosen={chosen}
        onChoose={toggleCompared}
      />
      {rows.length === 0 && (
        <p className="paddles-none">
          No paddle is like that.{' '}
          <button type="button" className="plain" onClick={() => setView({ ...wholeView, sort: view.sort })}>
            Show all
          </button>
        </p>
      )}
    </div>
  )
}
