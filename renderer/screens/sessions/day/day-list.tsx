import './day.css'
import { useState } from 'react'
import type { ClipHolds, DayState, DayTurn } from '../../../../core/contract/test-day.ts'
import { clipsMissing, clipsThere, clipsWanted } from '../../../../core/planning/day-progress.ts'
import { counted } from '../../../components/counted.ts'
import { ProblemNote } from '../../../components/problem-note.tsx'
import { useAnswer } from '../../../state/answers.ts'
import { ClipOnTurn } from './clip-on-turn.tsx'
import { TurnDetails } from './turn-details.tsx'
import { nameOf } from './turn-words.ts'

/** The day as it was planned, ticked off as clips come in: what is next, what is missing, ball changes. */
export function DayList({ sessionId }: { sessionId: string }) {
  const { value: day, problem } = useAnswer('day.state', { sessionId }, ['clips', 'sessions', 'hits'])
  const [open, setOpen] = useState<number | null>(null)
  if (problem) return <ProblemNote problem={problem} />
  if (!day) return null
  const blocks = [...new Set(day.turns.map(({ block }) => block))]
  const shown = day.turns.find(({ place }) => place === open)
  return (
    <section className="day-list" aria-label="Test day">
      <header>
        <h3>Test day</h3>
        <span className="quiet">{progressWords(day)}</span>
        <p className="day-next" role="status">
          {nextWords(day)}
        </p>
      </header>
      <div className="day-blocks">
        {blocks.map(block => (
          <ol key={block} aria-label={`Block ${block + 1}`}>
            {day.turns
              .filter(turn => turn.block === block)
              .map(turn => (
                <li key={turn.place} data-next={turn.place === day.next} data-left-out={turn.leftOut}>
                  <button
                    type="button"
                    aria-expanded={turn.place === open}
                    onClick={() => setOpen(turn.place === open ? null : turn.place)}
                  >
                    <TurnShape turn={turn} holds={day.clipHolds} />
                    <span className="day-turn-name" data-reference={turn.isReference}>
                      {turn.freshBall && <span title="A fresh ball first">◆ </span>}
                      {nameOf(turn)}
                    </span>
                    <span className="figure quiet">
                      {turn.leftOut
                        ? 'left out'
                        : `${clipsThere(turn)} of ${clipsWanted(turn, day.clipHolds)}`}
                    </span>
                  </button>
                </li>
              ))}
          </ol>
        ))}
      </div>
      {shown && <TurnDetails sessionId={sessionId} day={day} turn={shown} />}
      {day.unplaced.length > 0 && (
        <div className="day-unplaced">
          <p className="quiet">{counted(day.unplaced.length, 'clip')} on no turn:</p>
          <ul>
            {day.unplaced.map(clip => (
              <ClipOnTurn key={clip.clipId} clip={clip} place={null} day={day} />
            ))}
          </ul>
        </div>
      )}
    </section>
  )
}

/** Open, begun, done; a word for ears beside the shape. */
function TurnShape({ turn, holds }: { turn: DayTurn; holds: ClipHolds }) {
  const [there, missing] = [clipsThere(turn), clipsMissing(turn, holds)]
  const state = turn.leftOut ? 'left-out' : missing === 0 ? 'done' : there > 0 ? 'begun' : 'open'
  const again = turn.clips.length > there
  return (
    <svg
      className="day-turn-shape"
      data-state={state}
      viewBox="0 0 14 14"
      role="img"
      aria-label={again ? `${state}, a clip to film again` : state}
    >
      <rect x="1.5" y="1.5" width="11" height="11" rx="2" />
      {state === 'done' && <path d="M4 7.2 L6.2 9.5 L10.2 4.6" />}
      {state === 'begun' && <path d="M4.5 7 h5" />}
      {again && <circle cx="12" cy="2" r="2" />}
    </svg>
  )
}

function progressWords({ turns, clipHolds }: DayState): string {
  const kept = turns.filter(({ leftOut }) => !leftOut)
  const wanted = kept.reduce((sum, turn) => sum + clipsWanted(turn, clipHolds), 0)
  const missing = kept.reduce((sum, turn) => sum + clipsMissing(turn, clipHolds), 0)
  const again = turns.flatMap(({ clips }) => clips).filter(({ trouble }) => trouble !== null).length
  return `${wanted - missing} of ${counted(wanted, 'clip')}${again === 0 ? '' : `, ${counted(again, 'clip')} to film again`}`
}

function nextWords({ turns, next, clipHolds }: DayState): string {
  const turn = turns.find(({ place }) => place === next)
  if (!turn) return 'All is filmed.'
  const begun = clipsThere(turn) > 0
  const hits =
    clipHolds === 'turn'
      ? `${counted(turn.hits, 'hit')} in one clip`
      : `${counted(clipsMissing(turn, clipHolds), 'clip')}${begun ? ' more' : ''}`
  return `Next: ${nameOf(turn)}, ${hits}.${turn.freshBall && !begun ? ' Take a fresh ball.' : ''}`
}
