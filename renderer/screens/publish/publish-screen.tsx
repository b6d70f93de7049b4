import './publish.css'
import { useMemo } from 'react'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useAnswer } from '../../state/answers.ts'
import { useHitRows } from '../../state/hit-rows.ts'
import { useTable } from '../../state/ratings.ts'
import type { PublishedThing } from '../../state/route.ts'
import { Publish } from './publish.tsx'

/** What is shown to others: pictures, reports, annotated clips and lines, made from the stored evidence. */
export function PublishScreen({ of, ids }: { of: PublishedThing; ids: string[] }) {
  const hits = useHitRows()
  const sessions = useAnswer('sessions.list', {}, ['sessions'])
  const table = useTable()
  const read = useMemo(() => hits.value?.filter(hit => hit.reading?.rpm != null), [hits.value])
  const hit = useMemo(() => table.value?.rows.filter(row => row.hits + row.heldBack > 0), [table.value])
  const problem = hits.problem ?? sessions.problem ?? table.problem
  const again = () => {
    for (const answer of [hits, sessions, table]) answer.again()
  }
  return (
    <div className="publish">
      <h1>Publish</h1>
      {problem && <ProblemNote problem={problem} onAgain={again} />}
      {!problem && (!read || !sessions.value || !hit) && (
        <Progress progress={null} what="Looking at what there is" />
      )}
      {read && sessions.value && hit && (
        <Publish of={of} asked={ids} hits={read} sessions={sessions.value} rows={hit} />
      )}
    </div>
  )
}
