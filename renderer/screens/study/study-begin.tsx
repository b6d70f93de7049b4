import { useState } from 'react'
import { counted } from '../../components/counted.ts'
import { Field } from '../../components/field.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'

type StudyBeginProps = {
  sessionId: string
  markable: number
  people: string[]
  onBegun: (studyId: string) => void
}

/** With twenty marks the figure is known to about a sixth; more than two hundred nobody clicks. */
const usual = 20
const most = 200

/** Who marks, and how many. */
export function StudyBegin({ sessionId, markable, people, onBegun }: StudyBeginProps) {
  const host = useHost()
  const act = useAct()
  const largest = Math.min(most, markable)
  const [person, setPerson] = useState('')
  const [amount, setAmount] = useState(String(Math.min(usual, largest)))
  const [tried, setTried] = useState(false)
  const items = /^\d+$/.test(amount.trim()) ? Number(amount) : 0
  const fits = items >= 1 && items <= largest
  const begin = () => {
    setTried(true)
    if (person.trim() === '' || !fits) return
    act.run(async () => onBegun((await host.call('study.begin', { sessionId, person, items })).id))
  }
  return (
    <form
      className="study-begin"
      noValidate
      onSubmit={event => {
        event.preventDefault()
        begin()
      }}
    >
      <Field
        label="Who marks"
        text={person}
        onText={setPerson}
        choices={people}
        required
        problem={tried && person.trim() === '' ? 'A name, to tell people apart.' : undefined}
      />
      <Field
        label={`Marks, of ${markable}`}
        text={amount}
        onText={setAmount}
        problem={fits ? undefined : `A whole number from 1 to ${largest}.`}
      />
      <button type="submit" className="main" disabled={act.busy}>
        Begin
      </button>
      <span className="quiet">
        {fits &&
          `${counted(2 * items, 'click')}, about ${counted(Math.ceil(items / 10), 'minute')}. You can stop at any time.`}
      </span>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </form>
  )
}
