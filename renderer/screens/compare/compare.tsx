import './compare.css'
import { useMemo } from 'react'
import type { TableRow } from '../../../core/contract/standings.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { RpmAxis } from '../../components/rpm-axis.tsx'
import { TopLine } from '../../components/top-line.tsx'
import { useAnswer } from '../../state/answers.ts'
import { useCompared } from '../../state/compared.ts'
import { ratingChanges, useRanks, useTable } from '../../state/ratings.ts'
import { go, hrefOf } from '../../state/route.ts'
import { tableScale } from '../paddles/table-scale.ts'
import { Member } from './member.tsx'
import { Pairs } from './pairs.tsx'

/** Two set-ups or more against each other: every pair, with its difference and how sure that is. */
export function Compare({ setUpIds }: { setUpIds: string[] }) {
  const table = useTable()
  const { value, problem } = useAnswer('ratings.compare', setUpIds.length > 0 ? { setUpIds } : null, [
    ...ratingChanges,
  ])
  const ranks = useRanks(table.value !== null)
  const rows = setUpIds.length > 0 ? (value?.rows ?? []) : []
  const scale = useMemo(() => tableScale(rows), [rows])
  const choose = (ids: string[]) => {
    useCompared.setState({ setUpIds: ids })
    go({ screen: 'compare', setUpIds: ids }, 'in place')
  }
  const others = (table.value?.rows ?? []).filter(
    row => row.meanRpm !== null && !setUpIds.includes(row.setUpId),
  )
  if (problem && !value) {
    return (
      <div className="compare">
        <h1>Compare</h1>
        <ProblemNote problem={problem}>
          <button type="button" className="plain" onClick={() => choose([])}>
            Choose anew
          </button>
        </ProblemNote>
      </div>
    )
  }
  if (!table.value || (setUpIds.length > 0 && !value))
    return <Progress progress={table.progress} what="Comparing the paddles" />
  return (
    <div className="compare">
      <TopLine>
        <a href={hrefOf({ screen: 'paddles' })}>Paddles</a>
        <span className="quiet">{'\u00a0›\u00a0'}Compare</span>
      </TopLine>
      <h1>Compare</h1>
      {setUpIds.length > 1 && (
        <p>
          <a href={hrefOf({ screen: 'publish', of: 'comparison', ids: setUpIds })}>Publish the comparison</a>
        </p>
      )}
      {rows.length > 0 && (
        <section aria-label="The paddles">
          <div className="compare-member compare-head">
            <span />
            <span className="quiet">rpm, mean</span>
            <RpmAxis scale={scale} />
            <span className="quiet">Place, may truly be</span>
            <span />
          </div>
          <ul>
            {rows.map(row => (
              <Member
                key={row.setUpId}
                row={row}
                scale={scale}
                rank={ranks.get(row.setUpId) ?? null}
                onRemove={() => choose(setUpIds.filter(id => id !== row.setUpId))}
              />
            ))}
          </ul>
        </section>
      )}
      {setUpIds.length < 12 && (
        <Add rows={others} onAdd={id => choose([...setUpIds, id])} first={rows.length === 0} />
      )}
      {rows.length < 2 ? (
        <p className="compare-hint">
          Choose two set-ups or more: two paddles, two cores of one model, or one paddle stock and weighted.
        </p>
      ) : (
        <Pairs pairs={value?.pairs ?? []} rows={rows} />
      )}
    </div>
  )
}

function Add({ rows, onAdd, first }: { rows: TableRow[]; onAdd: (setUpId: string) => void; first: boolean }) {
  const sorted = useMemo(
    () => rows.toSorted((a, b) => `${a.paddle} ${a.setUp}`.localeCompare(`${b.paddle} ${b.setUp}`)),
    [rows],
  )
  return (
    <p className="compare-add">
      <select
        aria-label="Add a paddle to compare"
        value=""
        onChange={event => event.target.value && onAdd(event.target.value)}
      >
        <option value="">{first ? 'Choose a paddle…' : 'Add another…'}</option>
        {sorted.map(row => (
          <option key={row.setUpId} value={row.setUpId}>
            {row.paddle}, {row.setUp}
          </option>
        ))}
      </select>
    </p>
  )
}
