import type { ListedHit } from '../../../core/contract/workspace.ts'
import { useSessionHits } from '../../state/hit-rows.ts'
import { go } from '../../state/route.ts'
import { useBench } from './state/use-bench.ts'

/** Where the hit stands among its session's, in the order that they are listed. */
export function useHits(): { hits: ListedHit[]; position: number } {
  const { sessionId, hitId } = useBench(state => state.hit.row)
  const hits = useSessionHits(sessionId).value ?? []
  return { hits, position: hits.findIndex(hit => hit.hitId === hitId) }
}

/** The next hit that nobody has decided on, after this one and then from the start; else just the next. */
export function useNextHit(): { hitId: string; go: () => void } | null {
  const { hits, position } = useHits()
  const rest = [...hits.slice(position + 1), ...hits.slice(0, Math.max(0, position))]
  const next = rest.find(hit => hit.verdict.state === 'open') ?? hits[position + 1]
  return next ? { hitId: next.hitId, go: () => go({ screen: 'bench', hitId: next.hitId }) } : null
}
