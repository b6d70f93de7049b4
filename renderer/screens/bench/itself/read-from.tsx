import type { Provenance, ReadFrom as Source } from '../../../../core/contract/bench.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'

const bySurface: Record<Provenance, string> = {
  untouched: 'Read from the ball’s surface; nobody has touched it yet.',
  accepted: 'Read from the ball’s surface, looked at by a person.',
  clicked: 'Read from the ball’s surface.',
}

/** What the reading is made from. Marks take over only when a person says so. */
export function ReadFrom() {
  const store = useBenchStore()
  const { provenance, stale } = useBench(state => state.hit.row)
  const hasFigure = useBench(state => state.live.reading?.rpm != null)
  const isSurface = useBench(state => state.marks.readFrom === 'surface')
  const hasSurface = useBench(state => state.hit.surface != null)
  const hasMarks = useBench(state => state.marks.sightings.length > 0)
  const from = (source: Source) => () => store.getState().edit('reading', { kind: 'read-from', source })
  if (!isSurface && !hasSurface) return null
  return (
    <div className="read-from">
      <p className="quiet" role="status">
        {!isSurface && 'Read from the marks.'}
        {isSurface &&
          (stale
            ? 'Something changed: it is being read again.'
            : hasFigure
              ? bySurface[provenance ?? 'untouched']
              : 'The ball was found; its surface gave no figure.')}
        {isSurface && hasMarks && ' The marks do not change it.'}
      </p>
      {isSurface && hasMarks && (
        <button type="button" className="plain" onClick={from('marks')}>
          Let the marks count
        </button>
      )}
      {!isSurface && (
        <button type="button" className="plain" onClick={from('surface')}>
          Go back to the surface
        </button>
      )}
    </div>
  )
}
