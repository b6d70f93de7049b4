import { ProblemNote } from '../../../components/problem-note.tsx'
import { prompt } from '../state/guide.ts'
import { placeHere } from '../state/place.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { askingOf } from './asking.ts'

/** The one line that says what to do next, and what went wrong with the last thing done here. */
export function AskLine() {
  const line = useBench(state => prompt(askingOf(state)))
  const store = useBenchStore()
  const keepable = useBench(state => state.mode === 'outline' && state.rim === null)
  const problem = useBench(state => state.problem)
  const set = useBench(state => state.set)
  return (
    <div className="ask">
      <p className="ask-line" aria-live="polite">
        {line}
      </p>
      {keepable && (
        <button type="button" onClick={() => placeHere(store)} aria-keyshortcuts="Enter">
          Keep the circle
        </button>
      )}
      {problem?.place === 'stage' && (
        <ProblemNote problem={problem.problem} onForget={() => set({ problem: null })} />
      )}
    </div>
  )
}
