import './session-form.css'
import { useState } from 'react'
import type { TakenFrom } from '../../../core/contract/cameras.ts'
import type { SessionDetails } from '../../../core/contract/workspace.ts'
import { Field } from '../../components/field.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useAct } from '../../state/answers.ts'
import {
  type CameraTexts,
  detailsOf,
  type SessionProblems,
  type SessionTexts,
  textsOfCamera,
} from './session-fields.ts'
import { TakeFrom } from './take-from.tsx'

type SessionFormProps = {
  start: SessionTexts
  /** What the session's camera was filled from before. */
  taken: TakenFrom | null
  verb: string
  onKeep: (details: SessionDetails) => Promise<unknown>
  onCancel: () => void
}

/** What was filmed, with what, in place. An empty field is "not known", never a guess. */
export function SessionForm({ start, taken, verb, onKeep, onCancel }: SessionFormProps) {
  const [texts, setTexts] = useState(start)
  const [takenFrom, setTakenFrom] = useState(taken)
  const [problems, setProblems] = useState<SessionProblems>({})
  const act = useAct()
  const { notes } = detailsOf(texts)
  const field = (name: keyof SessionTexts) => ({
    text: texts[name],
    onText: (text: string) => {
      setTexts(last => ({ ...last, [name]: text }))
      setProblems(last => ({ ...last, [name]: undefined }))
    },
    problem: problems[name],
    note: notes[name],
  })
  const said = takenFrom && textsOfCamera(takenFrom)
  const cameraField = (name: keyof CameraTexts) => ({
    ...field(name),
    note: said ? noteOf(said[name], texts[name], takenFrom.name) : notes[name],
  })
  const take = (from: TakenFrom | null) => {
    setTakenFrom(from)
    if (from) setTexts(last => ({ ...last, cameraName: from.name, ...textsOfCamera(from) }))
  }
  const keep = () => {
    const read = detailsOf(texts, takenFrom)
    if (read.problems) setProblems(read.problems)
    else act.run(() => onKeep(read.details))
  }

  return (
    <form
      className="session-form"
      noValidate
      onSubmit={event => {
        event.preventDefault()
        keep()
      }}
      onKeyDown={event => event.key === 'Escape' && onCancel()}
    >
      <fieldset>
        <legend>Filmed</legend>
        <div className="session-form-fields">
          <Field label="Day" type="date" required {...field('day')} />
          <Field label="Place" hint="Hall, court, wall" {...field('place')} />
          <Field label="Hit by" hint="Machine or person, and how" wide {...field('hitBy')} />
        </div>
      </fieldset>
      <fieldset>
        <legend>Camera</legend>
        <div className="session-form-fields">
          <TakeFrom taken={takenFrom} onTake={take} />
          <Field label="Name" hint="Which camera" {...field('cameraName')} />
          <Field
            label="Capture rate"
            unit="fps"
            choices={['120', '240', '480', '960']}
            {...cameraField('captureFps')}
          />
          <Field label="Rate uncertainty" unit="%" {...cameraField('captureUncertainty')} />
          <Field label="Exposure" hint="1/2000" {...cameraField('exposure')} />
          <Field label="Readout" unit="ms" hint="0 for a global shutter" {...cameraField('readout')} />
          <Field label="Readout uncertainty" unit="ms" {...cameraField('readoutUncertainty')} />
          <Field label="Focal length" unit="px" {...cameraField('focalLength')} />
        </div>
      </fieldset>
      <fieldset>
        <legend>Ball</legend>
        <div className="session-form-fields">
          <Field label="Name" {...field('ballName')} />
          <Field label="Size across" hint="74 mm" required {...field('ballSize')} />
          <Field label="Largest plausible rate" unit="rpm" {...field('maxRpm')} />
          <Field label="Own click error" unit="px" {...field('click')} />
        </div>
      </fieldset>
      <fieldset>
        <legend>Notes</legend>
        <div className="session-form-notes">
          <textarea
            aria-label="Notes"
            rows={2}
            value={texts.notes}
            onChange={event => field('notes').onText(event.target.value)}
          />
        </div>
      </fieldset>
      <footer>
        <button type="submit" className="main" disabled={act.busy}>
          {verb}
        </button>
        <button type="button" onClick={onCancel}>
          Cancel
        </button>
        <span className="quiet">Leave empty what is not known; the band then says so.</span>
      </footer>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </form>
  )
}

/** Whether a field still says what the camera said when the session took it. */
function noteOf(said: string, text: string, name: string): string | undefined {
  if (said === '') return text.trim() === '' ? undefined : `not from ${name}`
  return said === text.trim() ? `from ${name}` : `${name} said ${said}`
}
