import type { DayState, TurnClip } from '../../../../core/contract/test-day.ts'
import { counted } from '../../../components/counted.ts'
import { ProblemNote } from '../../../components/problem-note.tsx'
import { useHost } from '../../../host/host.ts'
import { useAct } from '../../../state/answers.ts'
import { nameOf } from './turn-words.ts'

type ClipOnTurnProps = { clip: TurnClip; place: number | null; day: DayState }

/** One clip of the day and whose turn it is; another turn takes its hits along. */
export function ClipOnTurn({ clip, place, day }: ClipOnTurnProps) {
  const host = useHost()
  const act = useAct()
  const { clipId, name, hits, trouble } = clip
  return (
    <li className="day-clip">
      <span>{name}</span>
      <span className="quiet">{hits === 0 ? 'no hit yet' : counted(hits, 'hit')}</span>
      <select
        aria-label={`Turn of ${name}`}
        disabled={act.busy}
        value={place ?? ''}
        onChange={event => {
          const to = event.target.value
          act.run(() => host.call('day.place', { clipId, place: to === '' ? null : Number(to) }))
        }}
      >
        <option value="">on no turn</option>
        {day.turns.map(turn => (
          <option key={turn.place} value={turn.place}>
            block {turn.block + 1}, {nameOf(turn)}
          </option>
        ))}
      </select>
      {trouble && <p className="day-clip-trouble">Film it again: {trouble}</p>}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </li>
  )
}
