import './doors.css'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { go } from '../../state/route.ts'
import { TurningBall } from './turning-ball.tsx'

/** The empty home: what will stand here, and the two ways in. `children` opens beneath the first door. */
export function Doors({ onAdd, children }: { onAdd: () => void; children: React.ReactNode }) {
  const host = useHost()
  const act = useAct()
  const fill = () =>
    act.run(async options => {
      const { sessionId } = await host.call('demo.fill', {}, options)
      go({ screen: 'sessions', sessionId })
    })
  return (
    <div className="doors">
      <TurningBall />
      <div className="doors-pair">
        <section>
          <h1>Add clips</h1>
          <p>
            Drop them anywhere on this page, or choose them. What was filmed on one day with one camera makes
            a session.
          </p>
          <button type="button" className="main" onClick={onAdd}>
            Choose clips…
          </button>
          {children}
        </section>
        <section>
          <h2>Look at the demo</h2>
          <p>
            Rendered clips of an invented test bench, marked and read. Each comes with the rate it was made
            with.
          </p>
          <button type="button" disabled={act.busy} onClick={fill}>
            Fill this workspace with the demo
          </button>
          {act.busy && (
            <Progress progress={act.progress} what="Reading the demo clips" onCancel={act.cancel} />
          )}
          {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
        </section>
      </div>
    </div>
  )
}
