import './hit-details.css'
import type { ListedHit } from '../../../core/contract/workspace.ts'
import { dayInWords } from '../../components/day-words.ts'
import { digits, halfWidthOf, rpmWithHalfWidth } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import { PaddlePicker } from '../../components/paddle-picker.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'
import { hrefOf } from '../../state/route.ts'
import { Evidence } from './evidence.tsx'
import { Notes } from './notes.tsx'
import { UsedValues } from './used-values.tsx'
import { VerdictSteps } from './verdict-steps.tsx'

type HitDetailsProps = { hit: ListedHit; onClose: () => void }

/** One hit opened beside the table: its figure, why it is so, whose it is, and what was decided. */
export function HitDetails({ hit, onClose }: HitDetailsProps) {
  const host = useHost()
  const paddles = useAnswer('paddles.list', {}, ['paddles'])
  const act = useAct()
  const { reading } = hit
  // The list has the figure; what it rests on comes with the hit.
  const opened = useAnswer('hits.open', { hitId: hit.hitId }, ['hits']).value
  const whole = opened?.row.reading ?? null
  return (
    <aside className="hit-details" aria-label="The hit">
      <header>
        <p className="quiet">
          {dayInWords(hit.day)} › {hit.clipName} ›{' '}
          <span className="hit-details-window">
            frames {hit.window.fromFrame}–{hit.window.toFrame}
          </span>
        </p>
        <button type="button" className="plain" onClick={onClose}>
          Close
        </button>
      </header>

      <h2 className="hit-details-rpm figure">
        {reading?.rpm == null ? (
          <span className="hit-details-none">{reading ? 'No figure' : 'Not read yet'}</span>
        ) : (
          <>
            {rpmWithHalfWidth(reading.rpm, reading.band && halfWidthOf(reading.band))}
            <span className="unit">{'\u00a0rpm'}</span>
          </>
        )}
      </h2>
      {reading && (
        <div className="hit-details-flag">
          <FlagMark flag={reading.flag} />
          {whole?.reasons.map(reason => (
            <p key={reason}>{reason}</p>
          ))}
          {hit.stale && <p>The marks or the camera’s facts changed since. The bench reads it again.</p>}
        </div>
      )}
      <p>
        <a className="hit-details-bench" href={hrefOf({ screen: 'bench', hitId: hit.hitId })}>
          Open in the bench
        </a>{' '}
        <kbd>Enter</kbd>
        {reading?.rpm != null && (
          <a
            className="hit-details-publish"
            href={hrefOf({ screen: 'publish', of: 'hit', ids: [hit.hitId] })}
          >
            Publish the hit
          </a>
        )}
      </p>

      <section>
        <h3>Verdict</h3>
        <VerdictSteps hit={hit} />
      </section>
      <section>
        <h3>Paddle</h3>
        <PaddlePicker
          paddles={paddles.value ?? []}
          setUpId={hit.setUpId}
          label="Paddle and set-up"
          onPick={setUpId => act.run(() => host.call('hits.assign', { hitId: hit.hitId, setUpId }))}
        />
        {(act.problem ?? paddles.problem) && <ProblemNote problem={(act.problem ?? paddles.problem)!} />}
      </section>
      {whole && <Evidence reading={whole} />}
      {opened?.used && <UsedValues used={opened.used} />}
      <section>
        <h3>Notes</h3>
        <Notes hit={hit} />
      </section>
      <p className="quiet hit-details-method">
        {hit.methodVersion && `Method ${hit.methodVersion}`}
        {whole && `, ${whole.method}, ${digits(whole.framesUsed)} frames used`}
      </p>
    </aside>
  )
}
