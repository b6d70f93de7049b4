import { useState } from 'react'
import type { Candidate, Reading } from '../../../../core/contract/reading.ts'
import { angleBetween } from '../../../../core/geometry/vector.ts'
import { degOfRad } from '../../../../core/units/angle.ts'
import { digits } from '../../../components/figure-text.ts'
import { isToSettle } from '../state/seen.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { KnownSense } from './known-sense.tsx'
import { SettleForm } from './settle-form.tsx'

const most = 6

/** The other rates that explain the marks. Looking at one lays it over the plot; choosing one needs a reason. */
export function Candidates() {
  const store = useBenchStore()
  const reading = useBench(state => state.live.reading)
  const settled = useBench(state => state.marks.settled)
  const hasAxis = useBench(state => state.live.reading?.axis != null)
  const isOpen = useBench(isToSettle)
  const [choosing, setChoosing] = useState<number | null>(null)
  if (!reading || reading.rpm === null) return null
  // The one that is being chosen stays to be seen.
  const look = (index: number | null) => store.setState({ overlaid: index ?? choosing })
  const choose = (index: number | null) => {
    setChoosing(index)
    store.setState({ overlaid: index })
  }
  const shown = worthShowing(reading)
  return (
    <section className="candidates">
      <h2>{isOpen ? 'Which rate was it?' : 'Rates that fit'}</h2>
      {isOpen && (
        <p className="quiet">
          Point at one to {hasAxis ? 'turn all balls back by it' : 'lay it over the plot'}. Click the one that
          it was, or say which way the shot turns the ball.
        </p>
      )}
      {isOpen && <KnownSense />}
      {shown.length < 2 && <p className="quiet">No other was found.</p>}
      {shown.length > 1 && (
        <ul onMouseLeave={() => look(null)}>
          {shown.map(({ candidate, index }) => (
            <li key={nameOf(candidate)}>
              <button
                type="button"
                className="candidate"
                data-open={isOpen}
                aria-pressed={isChosen(candidate, reading.rpm, reading.sense)}
                onMouseEnter={() => look(index)}
                onFocus={() => look(index)}
                onBlur={() => look(null)}
                onClick={() => choose(choosing === index ? null : index)}
              >
                <span className="figure candidate-rpm">{digits(candidate.rpm)}</span>
                <span className="candidate-sense">{candidate.sense ?? ''}</span>
                <span className="quiet candidate-support">
                  {candidate.plausible ? supportWords(candidate.support, index) : 'not plausible'}
                  {axisWords(candidate, reading)}
                </span>
                {isOpen && candidate.plausible && <span className="candidate-choose">choose</span>}
              </button>
              {choosing === index && <SettleForm candidate={candidate} onDone={() => choose(null)} />}
            </li>
          ))}
        </ul>
      )}
      {!isOpen && <KnownSense />}
      {settled && (
        <p className="settled">
          <span>
            Settled at {digits(settled.rpm)} {settled.sense}: {settled.reason}
          </span>{' '}
          <button
            type="button"
            className="plain"
            onClick={() => store.getState().edit('reading', { kind: 'settle', settled: null })}
          >
            open again
          </button>
        </p>
      )}
    </section>
  )
}

const nameOf = (candidate: Candidate) => `${candidate.rpm.toFixed(1)} ${candidate.sense}`

const isChosen = (candidate: Candidate, rpm: number | null, sense: Candidate['sense']) =>
  rpm !== null && candidate.sense === sense && Math.abs(candidate.rpm - rpm) < Math.max(1, rpm * 1e-3)

/** The plausible ones, and the slowest of those that are not: up to there, nothing else fits. */
function worthShowing({ candidates }: Reading): { candidate: Candidate; index: number }[] {
  const all = candidates.map((candidate, index) => ({ candidate, index }))
  const beyond = all
    .filter(each => !each.candidate.plausible)
    .toSorted((a, b) => a.candidate.rpm - b.candidate.rpm)
  return [...all.filter(each => each.candidate.plausible).slice(0, most), ...beyond.slice(0, 1)]
}

/** An axis further off than this is worth a word, degrees. */
const anotherAxisDeg = 10

function axisWords({ axis }: Candidate, { axis: own }: Reading): string {
  if (!axis || !own) return ''
  const apart = degOfRad(angleBetween([axis.x, axis.y, axis.z], [own.x, own.y, own.z]))
  return apart > anotherAxisDeg ? `, axis ${apart.toFixed(0)}° off` : ''
}

function supportWords(support: number, place: number): string {
  if (support > 0.9) return place === 0 ? 'fits best' : 'fits as well'
  if (support >= 0.1) return `${Math.round(support * 100)} % as likely`
  return support >= 0.001 ? `${(support * 100).toFixed(1)} % as likely` : 'unlikely'
}
