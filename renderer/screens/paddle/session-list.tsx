import type { PaddleSetUp } from '../../../core/contract/standings.ts'
import { counted } from '../../components/counted.ts'
import { dayInWords } from '../../components/day-words.ts'
import { digits, halfWidthOf, rpmWithHalfWidth } from '../../components/figure-text.ts'
import { HitDots } from '../../components/hit-dots.tsx'
import { RpmAxis } from '../../components/rpm-axis.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'

/** The hits session by session, the first day first, on the scale of the whole screen. */
export function SessionList({ setUps, scale }: { setUps: PaddleSetUp[]; scale: RpmScale }) {
  const lines = setUps
    .flatMap(({ name, sessions, hits }) => sessions.map(session => ({ name, session, hits })))
    .toSorted((a, b) => (a.session.day < b.session.day ? -1 : a.session.day > b.session.day ? 1 : 0))
  return (
    <section className="session-list" aria-label="Sessions">
      <h2>Sessions</h2>
      <div className="session-line session-head">
        <span />
        <RpmAxis scale={scale} />
        <span />
      </div>
      <ul>
        {lines.map(({ name, session, hits }) => {
          const own = hits.filter(hit => hit.sessionId === session.sessionId)
          const ratesOf = (inMean: boolean) =>
            own
              .flatMap(({ rpm, leftOut }) => (rpm !== null && (leftOut === null) === inMean ? [rpm] : []))
              .toSorted((a, b) => a - b)
          return (
            <li key={`${name} ${session.sessionId}`} className="session-line">
              <span className="session-name">
                <span>{dayInWords(session.day)}</span>
                <span className="quiet">
                  {name}, {session.place}
                </span>
              </span>
              <HitDots
                dots={ratesOf(true)}
                leftOut={ratesOf(false)}
                meanRpm={session.meanRpm}
                band={session.band}
                scale={scale}
              />
              <span className="session-name">
                <span className="figure">
                  {session.meanRpm === null
                    ? '–'
                    : session.band
                      ? rpmWithHalfWidth(session.meanRpm, halfWidthOf(session.band))
                      : digits(session.meanRpm)}
                </span>
                <span className="quiet">{counted(session.hits, 'hit')} in the mean</span>
              </span>
            </li>
          )
        })}
      </ul>
    </section>
  )
}
