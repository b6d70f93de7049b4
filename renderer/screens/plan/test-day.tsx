import { useState } from 'react'
import type { CameraProfile } from '../../../core/contract/cameras.ts'
import type { Plan } from '../../../core/contract/plan.ts'
import type { ClipHolds } from '../../../core/contract/test-day.ts'
import { testDayOf } from '../../../core/planning/test-day.ts'
import { today } from '../../components/day-words.ts'
import { Field } from '../../components/field.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { go } from '../../state/route.ts'
import { type DayTexts, dayRead, sessionOfDay, useDayTexts } from './day-fields.ts'
import { FilmingSheet } from './filming-sheet.tsx'

type TestDayProps = { plan: Plan; camera: CameraProfile | null; ball: string }

/** Which paddle when, and the sheet that goes along: a seeded order in blocks, the reference in each. */
export function TestDaySection({ plan, camera, ball }: TestDayProps) {
  const host = useHost()
  const act = useAct()
  const texts = useDayTexts()
  const [asked, setAsked] = useState(false)
  const { day, problems } = dayRead(texts)
  const field = (name: Exclude<keyof DayTexts, 'clipHolds'>) => ({
    text: texts[name],
    onText: (text: string) => useDayTexts.setState({ [name]: text }),
    problem: asked ? problems[name] : undefined,
  })
  const print = () => {
    setAsked(true)
    if (day) window.print()
  }
  const begin = () => {
    setAsked(true)
    if (!day) return
    act.run(async () => {
      const [before] = await host.call('sessions.list', {})
      const details = sessionOfDay({ setUp: plan.setUp, ball, camera, before, today: today() })
      const { id } = await host.call('day.begin', { details, day, clipHolds: texts.clipHolds })
      go({ screen: 'sessions', sessionId: id })
    })
  }
  return (
    <section className="foreseen-day" aria-label="Test day">
      <h2>Test day</h2>
      <p className="quiet">
        Every block holds each paddle and the reference once, in an order by chance, so that fatigue, a
        wearing ball and the sun favour nobody. The same number gives the same order.
      </p>
      <div className="foreseen-day-fields">
        <div className="field" data-wide="true">
          <label htmlFor="day-paddles">Paddles, one a line</label>
          <textarea
            id="day-paddles"
            rows={4}
            value={texts.paddles}
            onChange={event => useDayTexts.setState({ paddles: event.target.value })}
            aria-invalid={asked && problems.paddles !== undefined}
          />
          {asked && problems.paddles && <p className="field-problem">{problems.paddles}</p>}
        </div>
        <Field label="Reference paddle" {...field('reference')} />
        <Field label="Hits of each" {...field('hitsEach')} />
        <Field label="Blocks" {...field('blocks')} />
        <Field label="Fresh ball after" unit="hits" {...field('ballChange')} />
        <Field label="Number of the order" {...field('seed')} />
        <div className="field">
          <label htmlFor="day-clips">One clip for</label>
          <select
            id="day-clips"
            value={texts.clipHolds}
            onChange={event => useDayTexts.setState({ clipHolds: event.target.value as ClipHolds })}
          >
            <option value="hit">every hit</option>
            <option value="turn">all hits of a turn</option>
          </select>
        </div>
      </div>
      <div className="foreseen-day-steps">
        <button type="button" className="main" onClick={print}>
          Print the filming sheet
        </button>
        <button type="button" disabled={act.busy} onClick={begin}>
          Begin the day’s session
        </button>
        <span className="quiet">
          Clips then go to the next paddle of the order as they come in, several at once by their names.
        </span>
      </div>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
      {day && <FilmingSheet plan={plan} day={day} blocks={testDayOf(day)} />}
    </section>
  )
}
