import './backups.css'
import './more-below.css'
import { counted } from '../../components/counted.ts'
import { dayInWords } from '../../components/day-words.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { RemoveStep } from '../../components/remove-step.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'

const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' })
/** `25 Nov 2026, 14:27`, where the person is. */
const momentInWords = (iso: string) => {
  const at = new Date(iso)
  const day = `${at.getFullYear()}-${String(at.getMonth() + 1).padStart(2, '0')}-${String(at.getDate()).padStart(2, '0')}`
  return `${dayInWords(day)}, ${clock.format(at)}`
}

/** The dated copies of the whole workspace, and the way back to one. Closed until it is wanted. */
export function Backups() {
  const host = useHost()
  const { value, problem } = useAnswer('backups.list', {}, ['backups'])
  const making = useAct()
  if (!value) return problem && <ProblemNote problem={problem} />
  const [latest] = value.backups
  return (
    <details className="backups more-below">
      <summary>
        Backups{' '}
        <span className="quiet">
          {latest
            ? `latest ${momentInWords(latest.madeAt)}, ${counted(value.backups.length, 'copy', 'copies')}`
            : 'none yet'}
        </span>
      </summary>
      <p className="quiet">
        The app makes one a day while it is open, and before anything that changes the whole workspace.
      </p>
      {value.problem && <ProblemNote problem={value.problem} />}
      {making.problem && <ProblemNote problem={making.problem} onForget={making.forget} />}
      <ol>
        {value.backups.map(({ name, madeAt, bytes }) => (
          <li key={name}>
            <span className="backups-made">{momentInWords(madeAt)}</span>
            <span className="backups-size quiet">{(bytes / 1e6).toFixed(1)} MB</span>
            <RemoveStep
              word="Go back to this one"
              loses="All sessions become as they were then. What is here now becomes a backup itself."
              yes="Go back"
              no="Stay"
              onRemove={() => host.call('backups.restore', { name })}
            />
          </li>
        ))}
      </ol>
      <button
        type="button"
        className="plain"
        disabled={making.busy}
        onClick={() => making.run(() => host.call('backups.make', {}))}
      >
        Make one now
      </button>
    </details>
  )
}
