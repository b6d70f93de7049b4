import './readings.css'
import { useDeferredValue, useMemo, useRef, useState } from 'react'
import { digits } from '../../components/figure-text.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { rpmScaleOf } from '../../components/rpm-scale.ts'
import { useHitRows } from '../../state/hit-rows.ts'
import { useKeys } from '../../state/keys.ts'
import { go, hrefOf } from '../../state/route.ts'
import { rowSteps } from '../../state/row-steps.ts'
import { Filters } from './filters.tsx'
import { HitDetails } from './hit-details.tsx'
import { HitTable } from './hit-table.tsx'
import { flagCounts, rowsOf, type View, wholeView } from './table-view.ts'
import { useSelection } from './use-selection.ts'

/** Every hit with its rate, band and flag. A row opens to the right, in place. */
export function Readings({ hitId }: { hitId: string | null }) {
  const { value: all, problem, isWhole, again } = useHitRows()
  const [view, setView] = useState<View>(wholeView)
  const [selected, setSelected] = useSelection(hitId)
  const search = useRef<HTMLInputElement>(null)
  const shownView = useDeferredValue(view)
  const rows = useMemo(() => rowsOf(all ?? [], shownView), [all, shownView])
  const scale = useMemo(() => rpmScaleOf(all?.flatMap(row => row.reading?.band ?? []) ?? []), [all])
  const counts = useMemo(() => flagCounts(all ?? []), [all])
  const paddles = useMemo(() => [...new Set(all?.flatMap(row => row.paddle ?? []))].sort(), [all])
  const change = (part: Partial<View>) => setView(last => ({ ...last, ...part }))
  const open = all?.find(row => row.hitId === selected)

  useKeys('Readings', [
    ...rowSteps(
      'hit',
      rows.map(row => row.hitId),
      selected,
      setSelected,
    ),
    {
      keys: ['Enter'],
      word: 'Open in the bench',
      run: () => selected && go({ screen: 'bench', hitId: selected }),
    },
    { keys: ['/'], word: 'Search', run: () => search.current?.focus() },
    {
      keys: ['Escape'],
      word: 'Close the hit, or leave the search',
      whileTyping: true,
      run: () => (document.activeElement === search.current ? search.current?.blur() : setSelected(null)),
    },
  ])

  if (problem && !all) {
    return (
      <div className="readings-message">
        <ProblemNote problem={problem} onAgain={again} />
      </div>
    )
  }
  if (!all) return <Progress progress={null} what="Reading the hits" />
  if (all.length === 0) {
    return (
      <div className="readings-message">
        <h1>Readings</h1>
        <p>Every hit will stand here with its rate, its band and its flag.</p>
        <p>
          <a href={hrefOf({ screen: 'sessions', sessionId: null })}>Mark a first hit</a> on a clip of a
          session.
        </p>
      </div>
    )
  }
  return (
    <div className="readings" data-open={open !== undefined}>
      <div className="readings-list">
        <header>
          <h1>Readings</h1>
          <p className="quiet" aria-live="polite">
            {rows.length === all.length
              ? digits(all.length)
              : `${digits(rows.length)} of ${digits(all.length)}`}{' '}
            hits{!isWhole && ' so far'}
          </p>
          <Filters view={view} onView={change} counts={counts} paddles={paddles} search={search} />
        </header>
        {problem && <ProblemNote problem={problem} />}
        <HitTable
          rows={rows}
          scale={scale}
          sort={view.sort}
          onSort={sort => change({ sort })}
          selected={selected}
          onSelect={setSelected}
        />
        {rows.length === 0 && (
          <p className="readings-none">
            No hit is like that.{' '}
            <button
              type="button"
              className="plain"
              onClick={() => setView({ ...wholeView, sort: view.sort })}
            >
              Show all
            </button>
          </p>
        )}
      </div>
      {open && <HitDetails key={open.hitId} hit={open} onClose={() => setSelected(null)} />}
    </div>
  )
}
