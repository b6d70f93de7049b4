import { useState } from 'react'
import type { CameraProfileDetails } from '../../../core/contract/cameras.ts'
import { today } from '../../components/day-words.ts'
import { Field } from '../../components/field.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useAct } from '../../state/answers.ts'
import { type CameraField, cameraRead, cameraTexts } from './camera-fields.ts'

type CameraFormProps = {
  before: CameraProfileDetails | null
  onKeep: (details: CameraProfileDetails) => Promise<unknown>
  onCancel: () => void
}

/** A camera in one mode, in place. What a check found can be typed over; it is a person's word then. */
export function CameraForm({ before, onKeep, onCancel }: CameraFormProps) {
  const [texts, setTexts] = useState(() => cameraTexts(before))
  const [tried, setTried] = useState(false)
  const act = useAct()
  const { details, notes, problems } = cameraRead(texts, before, today())
  const field = (name: CameraField) => ({
    text: texts[name],
    onText: (text: string) => setTexts(last => ({ ...last, [name]: text })),
    // An empty form is not wrong yet.
    problem: tried || texts[name].trim() !== '' ? problems[name] : undefined,
    note: notes[name],
  })
  return (
    <form
      className="camera-form"
      aria-label={before ? 'Change the camera' : 'New camera'}
      noValidate
      onSubmit={event => {
        event.preventDefault()
        setTried(true)
        if (details) act.run(() => onKeep(details))
      }}
      onKeyDown={event => event.key === 'Escape' && onCancel()}
    >
      <Field label="Name" hint="Which camera, in which mode" wide required {...field('name')} />
      <Field label="Set to" unit="fps" choices={['120', '240', '480', '960']} required {...field('fps')} />
      <Field label="Picture" unit="px" hint="1920 × 1080" {...field('picture')} />
      <Field label="True rate" unit="fps" hint="from a check" {...field('rate')} />
      <Field label="Rate known to" hint="0.05 %" {...field('rateUncertainty')} />
      <Field label="Readout" hint="4 ms, 0 global" {...field('readout')} />
      <Field label="Readout known to" hint="0.2 ms" {...field('readoutUncertainty')} />
      <Field label="Focal length" hint="60° or 1600 px" {...field('focal')} />
      <Field label="Focal length known to" unit="px" {...field('focalUncertainty')} />
      <Field label="Usual exposure" hint="1/2000" {...field('exposure')} />
      <Field label="Notes" wide {...field('notes')} />
      <footer>
        <button type="submit" className="main" disabled={act.busy}>
          {before ? 'Keep changes' : 'Keep camera'}
        </button>
        <button type="button" onClick={onCancel}>
          Cancel
        </button>
        <span className="quiet">Known to: standard uncertainties. Leave empty what is not known.</span>
      </footer>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </form>
  )
}
