import { acceptProposals, propose } from '../state/proposing.ts'
import { followed } from '../state/seen.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'

/** A mark proposed in every frame: one nudge moves all of them, one key accepts them. */
export function Proposing() {
  const store = useBenchStore()
  const mark = useBench(followed)
  const canPropose = useBench(state => state.live.reading?.axis != null && state.live.reading.rpm !== null)
  const proposing = useBench(state => state.proposing)
  const seen = useBench(state => state.proposals.filter(each => each.kind === 'point').length)
  if (mark?.kind !== 'point' || !canPropose) return null
  if (!proposing)
    return (
      <button
        type="button"
        className="plain"
        onClick={() => propose(store)}
        aria-keyshortcuts="m"
        title="Propose it in every frame (M)"
      >
        Propose “{mark.id}”
      </button>
    )
  return (
    <>
      <span className="quiet" role="status">
        “{mark.id}” is proposed in {seen} frames.
      </span>
      <button
        type="button"
        onClick={() => acceptProposals(store)}
        aria-keyshortcuts="y"
        title="Accept all (Y)"
      >
        Accept all
      </button>
      <button type="button" className="plain" onClick={() => propose(store)}>
        leave
      </button>
    </>
  )
}
