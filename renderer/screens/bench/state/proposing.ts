import type { SingleEdit } from '../../../../core/contract/bench.ts'
import type { BenchState } from './bench-state.ts'
import type { BenchStore } from './bench-store.ts'
import { goTo } from './going.ts'
import { followMark } from './marking.ts'
import { proposedMarks } from './proposed.ts'
import { followed } from './seen.ts'

/** What is proposed for the followed mark just now. */
export function proposalsIn(state: BenchState): BenchState['proposals'] {
  const mark = followed(state)
  return mark ? proposedMarks(state, state.hit, state.live.reading, mark) : []
}

/** Shows where the followed mark should be in every frame, or takes the proposal away again. */
export function propose(store: BenchStore): void {
  const state = store.getState()
  if (state.proposing) {
    state.set({ proposing: false, proposals: [] })
    return
  }
  const proposals = proposalsIn(state)
  if (proposals.length === 0) return
  followMark(store)
  // The plot shows marks, the balls turned back none.
  state.set({ proposing: true, proposals, turnedBack: false })
  const { frame, marks } = store.getState()
  const seen = proposals.find(each => each.kind === 'point' && each.frame >= frame) ?? proposals[0]!
  if (frame < marks.window.fromFrame || frame > marks.window.toFrame) goTo(store, seen.frame)
}

/** Accepts all that is proposed, as one step; what a person clicked stays as it is. */
export function acceptProposals(store: BenchStore): void {
  const { proposing, proposals, marks, edit, set } = store.getState()
  if (!proposing) return
  const clicked = new Set(
    marks.sightings.filter(seen => !seen.accepted).map(seen => `${seen.frame} ${seen.mark}`),
  )
  const edits = proposals
    .filter(each => !clicked.has(`${each.frame} ${each.mark}`))
    .map((each): SingleEdit => ({ kind: 'place-sighting', sighting: { ...each, accepted: true } }))
  if (edits.length > 0 && !edit('marks', { kind: 'together', edits })) return
  set({ proposing: false, proposals: [] })
}
