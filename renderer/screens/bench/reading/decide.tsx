import { useState } from 'react'
import { ProblemNote } from '../../../components/problem-note.tsx'
import { useKeys } from '../../../state/keys.ts'
import { useNextHit } from '../next-hit.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { blockedWhy } from './blocked-why.ts'
import { HoldBackForm } from './hold-back-form.tsx'

/** The person's word on the reading: accepted, held back with a reason, or open; and on to the next hit. */
export function Decide() {
  const store = useBenchStore()
  const verdict = useBench(state => state.marks.verdict)
  const blocked = useBench(state => blockedWhy(state.live.reading, state.marks.settled))
  const problem = useBench(state => state.problem)
  const set = useBench(state => state.set)
  const [holding, setHolding] = useState(false)
  const next = useNextHit()
  const edit = store.getState().edit
  const accept = () => {
    if (!blocked) edit('reading', { kind: 'decide', verdict: { state: 'accepted', reason: '' } })
  }
  const openAgain = () => edit('reading', { kind: 'decide', verdict: { state: 'open', reason: '' } })
  useKeys('The reading', [
    { keys: ['g'], word: 'accept', run: accept },
    { keys: ['b'], word: 'hold back, with a reason', run: () => setHolding(true) },
    { keys: ['t'], word: 'next hit', run: () => next?.go() },
    { keys: ['z', 'Mod+z'], word: 'undo', run: () => store.getState().undo() },
    { keys: ['Shift+z', 'Mod+Shift+z', 'Mod+y'], word: 'redo', run: () => store.getState().redo() },
  ])

  return (
    <div className="decide">
      {problem?.place === 'reading' && (
        <ProblemNote problem={problem.problem} onForget={() => set({ problem: null })} />
      )}
      {holding && <HoldBackForm onDone={() => setHolding(false)} />}
      {!holding && verdict.state === 'open' && (
        <>
          {blocked && <p className="quiet">{blocked}</p>}
          <p className="decide-steps">
            <button type="button" className="main" disabled={blocked !== null} onClick={accept}>
              Accept
            </button>
            <button type="button" onClick={() => setHolding(true)}>
              Hold back
            </button>
            {next && (
              <button type="button" className="plain" onClick={next.go}>
                next hit
              </button>
            )}
          </p>
        </>
      )}
      {!holding && verdict.state !== 'open' && (
        <>
          <p>
            {verdict.state === 'accepted' ? 'Accepted.' : `Held back: ${verdict.reason}`}{' '}
            <button type="button" className="plain" onClick={openAgain}>
              open again
            </button>
          </p>
          {next && (
            <p className="decide-steps">
              <button type="button" className="main" onClick={next.go}>
                Next hit
              </button>
            </p>
          )}
        </>
      )}
    </div>
  )
}
