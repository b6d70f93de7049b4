import { ProblemNote } from '../../../components/problem-note.tsx'
import { Progress } from '../../../components/progress.tsx'
import { useHost } from '../../../host/host.ts'
import { useAct } from '../../../state/answers.ts'
import { useKeys } from '../../../state/keys.ts'
import { showsTurnedBack } from '../state/bench-store.ts'
import { acceptProposals, propose } from '../state/proposing.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { Proposing } from './proposing.tsx'
import { ReadFrom } from './read-from.tsx'

/** Has the program read the hit by itself, and says what the reading is made from. */
export function ReadItself() {
  const host = useHost()
  const store = useBenchStore()
  const act = useAct()
  const hitId = useBench(state => state.hit.row.hitId)
  const captureFps = useBench(state => state.captureFps)
  const isSurface = useBench(state => state.marks.readFrom === 'surface')
  const turnedBack = useBench(state => state.turnedBack)
  const hasAxis = useBench(state => state.live.reading?.axis != null && state.live.reading.rpm !== null)
  const turnBack = () => store.setState({ turnedBack: !store.getState().turnedBack })
  const read = () => {
    if (captureFps === null) return
    act.run(async options => {
      store.getState().refresh(await host.call('hits.read', { hitId }, options))
      const { marks, frame, set } = store.getState()
      const isInside = frame >= marks.window.fromFrame && frame <= marks.window.toFrame
      set({
        mode: 'mark',
        rim: null,
        cursor: null,
        playing: false,
        frame: isInside ? frame : marks.window.fromFrame,
        turnedBack: showsTurnedBack(marks),
      })
    })
  }
  useKeys('By itself', [
    { keys: ['i'], word: 'read it by itself', run: read },
    { keys: ['m'], word: 'propose the mark in every frame', run: () => propose(store) },
    { keys: ['y'], word: 'accept what is proposed', run: () => acceptProposals(store) },
    { keys: ['h'], word: 'turn every ball back to the first frame', run: turnBack },
  ])
  return (
    <div className="itself">
      <ReadFrom />
      {act.busy && <Progress progress={act.progress} what="Finding the ball" onCancel={act.cancel} />}
      {!act.busy && (
        <p className="itself-steps">
          <button
            type="button"
            className={isSurface ? 'plain' : undefined}
            disabled={captureFps === null}
            onClick={read}
            aria-keyshortcuts="i"
            title="Read it by itself (I)"
          >
            {isSurface ? 'Read it again' : 'Read it by itself'}
          </button>
          <Proposing />
          {hasAxis && (
            <button
              type="button"
              className="plain"
              aria-pressed={turnedBack}
              aria-keyshortcuts="h"
              title="Turn every ball back to the first frame (H)"
              onClick={turnBack}
            >
              Turn the balls back
            </button>
          )}
        </p>
      )}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </div>
  )
}
