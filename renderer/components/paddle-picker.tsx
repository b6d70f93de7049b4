import './paddle-picker.css'
import { useState } from 'react'
import type { Paddle } from '../../core/contract/workspace.ts'
import { useHost } from '../host/host.ts'
import { useAct } from '../state/answers.ts'
import { ProblemNote } from './problem-note.tsx'

type PaddlePickerProps = {
  paddles: Paddle[]
  setUpId: string | null
  onPick: (setUpId: string | null) => void
  label: string
  /** What stands there while nothing is picked. */
  none?: string
}

/** Whose hit it was: a paddle in one of its set-ups, or a new one named on the spot. */
export function PaddlePicker({ paddles, setUpId, onPick, label, none = 'no paddle yet' }: PaddlePickerProps) {
  const [naming, setNaming] = useState(false)
  if (naming) {
    return (
      <NewSetUp
        paddles={paddles}
        onDone={made => {
          setNaming(false)
          if (made) onPick(made)
        }}
      />
    )
  }
  return (
    <select
      className="paddle-picker"
      aria-label={label}
      value={setUpId ?? ''}
      data-none={setUpId === null}
      onChange={event =>
        event.target.value === 'new' ? setNaming(true) : onPick(event.target.value || null)
      }
    >
      <option value="">{none}</option>
      {paddles.map(paddle => (
        <optgroup key={paddle.id} label={paddle.name}>
          {paddle.setUps.map(setUp => (
            <option key={setUp.id} value={setUp.id}>
              {paddle.name}, {setUp.name}
            </option>
          ))}
        </optgroup>
      ))}
      <option value="new">A new paddle or set-up…</option>
    </select>
  )
}

function NewSetUp({ paddles, onDone }: { paddles: Paddle[]; onDone: (setUpId: string | null) => void }) {
  const host = useHost()
  const [name, setName] = useState('')
  const [setUp, setSetUp] = useState('stock')
  const act = useAct()
  const make = () =>
    act.run(async () => {
      const known = paddles.find(each => each.name === name.trim())
      let paddle = known ?? (await host.call('paddles.create', { name, notes: '' }))
      const same = () => paddle.setUps.find(each => each.name === setUp.trim())
      if (!same())
        paddle = await host.call('paddles.addSetUp', { paddleId: paddle.id, name: setUp, notes: '' })
      onDone(same()?.id ?? null)
    })
  return (
    <form
      className="new-set-up"
      onSubmit={event => {
        event.preventDefault()
        make()
      }}
      onKeyDown={event => event.key === 'Escape' && onDone(null)}
    >
      <input
        // biome-ignore lint/a11y/noAutofocus: the person has just asked to name it.
        autoFocus
        aria-label="Paddle"
        placeholder="Paddle"
        list="known-paddles"
        value={name}
        onChange={event => setName(event.target.value)}
      />
      <datalist id="known-paddles">
        {paddles.map(paddle => (
          <option key={paddle.id} value={paddle.name} />
        ))}
      </datalist>
      <input
        aria-label="Set-up"
        placeholder="Set-up"
        value={setUp}
        onChange={event => setSetUp(event.target.value)}
      />
      <button type="submit" disabled={act.busy || name.trim() === '' || setUp.trim() === ''}>
        Keep
      </button>
      <button type="button" className="plain" onClick={() => onDone(null)}>
        Cancel
      </button>
      {act.problem && <ProblemNote problem={act.problem} />}
    </form>
  )
}
