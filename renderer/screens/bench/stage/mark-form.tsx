import { useState } from 'react'
import type { MarkKind } from '../../../../core/contract/bench.ts'
import { followMark, putMark } from '../state/marking.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'

/** Names a mark, says how it is followed and how often it looks the same in one turn. An empty id is a new one. */
export function MarkForm({ id, onDone }: { id: string; onDone: () => void }) {
  const store = useBenchStore()
  const marks = useBench(state => state.marks)
  const before = marks.marks.find(mark => mark.id === id)
  const [name, setName] = useState(id)
  const [kind, setKind] = useState<MarkKind>(before?.kind ?? 'point')
  const [symmetryOrder, setSymmetryOrder] = useState(before?.symmetryOrder ?? 1)
  const isSeen = marks.sightings.some(seen => seen.mark === id && seen.kind !== 'hidden')

  const keep = (event: React.FormEvent) => {
    event.preventDefault()
    putMark(store, { id: before?.id ?? name.trim(), kind, symmetryOrder })
    onDone()
  }
  const remove = () => {
    if (!store.getState().edit('marks', { kind: 'remove-mark', mark: id })) return
    followMark(store, store.getState().marks.marks[0]?.id)
    onDone()
  }
  return (
    <form className="mark-form" onSubmit={keep}>
      {!before && (
        <label>
          Name
          <input
            // biome-ignore lint/a11y/noAutofocus: the form was just asked for.
            autoFocus
            required
            maxLength={60}
            value={name}
            onChange={event => setName(event.target.value)}
          />
        </label>
      )}
      <label>
        Followed as
        <select value={kind} disabled={isSeen} onChange={event => setKind(event.target.value as MarkKind)}>
          <option value="point">a point on the ball</option>
          <option value="direction">a line through the ball</option>
        </select>
      </label>
      <label>
        Looks the same, times a turn
        <input
          type="number"
          min={1}
          max={8}
          value={symmetryOrder}
          onChange={event => setSymmetryOrder(event.target.valueAsNumber)}
        />
      </label>
      <p className="followed-steps">
        <button type="submit" disabled={Number.isNaN(symmetryOrder)}>
          {before ? 'Keep' : 'Add'}
        </button>
        {before && marks.marks.length > 1 && (
          <button type="button" onClick={remove}>
            Remove
          </button>
        )}
        <button type="button" className="plain" onClick={onDone}>
          leave
        </button>
      </p>
    </form>
  )
}
