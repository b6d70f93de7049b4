import type { Sense } from '../../../../core/contract/marks.ts'
import { useBench } from '../state/use-bench.ts'

/** The sense of the shot, where it is known from outside the marks: it rules out half of the rates. */
export function KnownSense() {
  const sense = useBench(state => state.marks.sense)
  const edit = useBench(state => state.edit)
  return (
    <label className="known-sense">
      <span className="quiet">The shot turns it</span>
      <select
        value={sense ?? ''}
        onChange={event =>
          edit('reading', { kind: 'set-sense', sense: (event.target.value || null) as Sense | null })
        }
      >
        <option value="">not known</option>
        <option value="clockwise">clockwise</option>
        <option value="counter-clockwise">counter-clockwise</option>
      </select>
    </label>
  )
}
