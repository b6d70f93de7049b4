import { TopLine } from '../../components/top-line.tsx'
import { hrefOf } from '../../state/route.ts'
import { useHits } from './next-hit.ts'
import { useBench } from './state/use-bench.ts'

/** Where one is, in the frame's top line: session, clip, which hit of how many, whose it is. */
export function BenchLine() {
  const session = useBench(state => state.session)
  const clip = useBench(state => state.clip)
  const row = useBench(state => state.hit.row)
  const saving = useBench(state => state.saving)
  const { hits } = useHits()
  const inClip = hits.filter(hit => hit.clipId === clip.id)
  const position = inClip.findIndex(hit => hit.hitId === row.hitId)
  return (
    <TopLine>
      <h1 className="bench-line">
        <a href={hrefOf({ screen: 'sessions', sessionId: session.id })}>
          {session.place || 'Session'}, {session.day}
        </a>
        <span aria-hidden="true"> › </span>
        <span>{clip.name}</span>
        {position >= 0 && (
          <>
            <span aria-hidden="true"> › </span>
            <span>
              hit {position + 1} of {inClip.length}
            </span>
          </>
        )}
        <span className="quiet">
          {' · '}
          {row.paddle ?? 'no paddle yet'}
          {row.setUp && `, ${row.setUp}`}
        </span>
        <span className="quiet" role="status">
          {saving ? ' saving' : ''}
        </span>
      </h1>
    </TopLine>
  )
}
