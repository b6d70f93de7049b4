import type { PaddlePage, PaddleSetUp } from '../../../core/contract/standings.ts'
import { dayInWords } from '../../components/day-words.ts'
import { digits } from '../../components/figure-text.ts'

type DriftNoteProps = { drift: NonNullable<PaddlePage['drift']>; setUps: PaddleSetUp[] }

const percent = (factor: number) => {
  const change = 100 * (factor - 1)
  return `${change > 0 ? '+' : ''}${digits(change, 1)}\u00a0%`
}

/** How the days of this paddle differ by the reference paddle, which was hit on each of them. */
export function DriftNote({ drift, setUps }: DriftNoteProps) {
  const mine = new Set(setUps.flatMap(({ sessions }) => sessions.map(session => session.sessionId)))
  const days = drift.sessions.filter(session => mine.has(session.sessionId))
  if (days.length === 0) return null
  return (
    <section className="drift-note" aria-label="Drift">
      <h2>Drift</h2>
      <p>
        By the reference {drift.reference}, sessions{' '}
        {drift.isSeen
          ? `differ by ${digits(100 * drift.betweenSessionsRelative, 1)}\u00a0% (standard deviation).`
          : 'do not differ by more than its hits do.'}
      </p>
      <ul>
        {days.map(({ sessionId, day, factor, halfWidth }) => (
          <li key={sessionId}>
            {dayInWords(day)}{' '}
            <span className="figure">
              {percent(factor)} ± {digits(100 * halfWidth, 1)}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
