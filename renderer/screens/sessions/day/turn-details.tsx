import type { DayState, DayTurn } from '../../../../core/contract/test-day.ts'
import { ProblemNote } from '../../../components/problem-note.tsx'
import { useHost } from '../../../host/host.ts'
import { useAct } from '../../../state/answers.ts'
import { ClipOnTurn } from './clip-on-turn.tsx'
import { nameOf } from './turn-words.ts'

type TurnDetailsProps = { sessionId: string; day: DayState; turn: DayTurn }

/** The clips of one turn, each with the way to another turn, and the turn left out or taken in again. */
export function TurnDetails({ sessionId, day, turn }: TurnDetailsProps) {
  const host = useHost()
  const act = useAct()
  const { place, leftOut, clips } = turn
  return (
    <div className="day-turn-details">
      <p>
        Block {turn.block + 1}, {nameOf(turn)}{' '}
        <button
          type="button"
          className="plain"
          disabled={act.busy}
          onClick={() => act.run(() => host.call('day.leaveOut', { sessionId, place, leftOut: !leftOut }))}
        >
          {leftOut ? 'Take it in again' : 'Leave this turn out'}
        </button>
      </p>
      {clips.length === 0 && <p className="quiet">Its clips will stand here as they come in.</p>}
      <ul>
        {clips.map(clip => (
          <ClipOnTurn key={clip.clipId} clip={clip} place={place} day={day} />
        ))}
      </ul>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </div>
  )
}
