import type { BenchState } from '../state/bench-state.ts'
import { type Asking, nextUnmarkedFrame } from '../state/guide.ts'
import { followed, isToSettle, placedOutline, sightingOf } from '../state/seen.ts'

function byItself(state: BenchState): Asking['byItself'] {
  const { marks, live } = state
  if (marks.readFrom !== 'surface' || marks.sightings.length > 0) return null
  if (live.reading?.rpm == null) return 'none'
  return isToSettle(state) ? 'several' : state.turnedBack ? 'one' : null
}

/** What the stage asks for just now, from the bench's state. */
export function askingOf(state: BenchState): Asking {
  const mark = followed(state)
  const { fromFrame, toFrame } = state.marks.window
  const inHit = state.marks.sightings.filter(
    seen => seen.mark === mark?.id && seen.frame >= fromFrame && seen.frame <= toFrame,
  )
  return {
    mode: state.mode,
    rimPoints: state.rim ? state.rim.points.length : null,
    whole: state.rim !== null && state.rim.near === null,
    proposed: placedOutline(state, state.frame)?.found ?? placedOutline(state, state.frame) === null,
    direction: mark?.kind === 'direction',
    markName: mark?.id ?? 'the mark',
    done: mark !== null && nextUnmarkedFrame(state.marks, mark.id, state.frame) === null,
    here: mark !== null && sightingOf(state, state.frame, mark.id) !== null,
    verdict: state.marks.verdict.state,
    proposing: state.proposing,
    byItself: byItself(state),
    seen: inHit.filter(seen => seen.kind !== 'hidden').length,
  }
}
