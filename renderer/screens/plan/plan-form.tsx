import { useId } from 'react'
import type { CameraProfile } from '../../../core/contract/cameras.ts'
import type { PlannedMark } from '../../../core/contract/plan.ts'
import { ballKinds } from '../../../core/planning/balls.ts'
import { Field } from '../../components/field.tsx'
import { filledFrom, type PlanRead, type PlanTexts } from './plan-fields.ts'

type PlanFormProps = {
  texts: PlanTexts
  read: PlanRead
  cameras: CameraProfile[]
  onTexts: (texts: PlanTexts) => void
}

const markWords: Record<PlannedMark, string> = {
  dot: 'One dot',
  'two-dots': 'Two dots, a quarter turn apart',
  arrow: 'An arrow',
  line: 'A plain line',
}

/** What is known of camera, hit and mark. Each field says beneath it what it was understood as. */
export function PlanForm({ texts, read, cameras, onTexts }: PlanFormProps) {
  const markId = useId()
  const cameraId = useId()
  type Typed = { [K in keyof PlanTexts]: PlanTexts[K] extends string ? K : never }[keyof PlanTexts]
  const field = (name: Exclude<Typed, 'mark' | 'camera'>) => ({
    text: texts[name],
    onText: (text: string) => onTexts({ ...texts, [name]: text }),
    problem: read.problems[name],
    note: read.notes[name],
  })
  return (
    <form className="foreseen-form" noValidate onSubmit={event => event.preventDefault()}>
      <fieldset>
        <legend>Camera</legend>
        {cameras.length > 0 && (
          <div className="field" data-wide="true">
            <label htmlFor={cameraId}>Fill from</label>
            <select
              id={cameraId}
              value={cameras.some(({ name }) => name === texts.camera) ? texts.camera : ''}
              onChange={event => {
                const camera = cameras.find(({ name }) => name === event.target.value)
                onTexts(camera ? filledFrom(texts, camera) : { ...texts, camera: '' })
              }}
            >
              <option value="">no camera that was measured</option>
              {cameras.map(({ id, name }) => (
                <option key={id} value={name}>
                  {name}
                </option>
              ))}
            </select>
          </div>
        )}
        <Field
          label="Capture rate"
          unit="fps"
          choices={['120', '240', '480', '960', '1000']}
          {...field('fps')}
        />
        <Field label="Exposure" {...field('exposure')} />
        <Field label="Picture" unit="px" {...field('picture')} />
        <Field label="Readout" {...field('readout')} />
        <Field label="Field of view" wide hint="60°, 3 m wide or 1600 px" {...field('view')} />
        <Field label="Distance to the ball" {...field('distance')} />
        <Field label="Bright enough at" hint="1/500" {...field('presentExposure')} />
      </fieldset>
      <fieldset>
        <legend>Hit</legend>
        <Field label="Ball" wide choices={ballKinds.map(kind => kind.name)} {...field('ball')} />
        <Field label="Spin expected" unit="rpm" {...field('rpm')} />
        <Field label="Speed" {...field('speed')} />
        <Field label="Axis tilt" {...field('axisTilt')} />
        <Field label="Spread of hits" unit="rpm" {...field('between')} />
      </fieldset>
      <fieldset>
        <legend>Mark</legend>
        <div className="field" data-wide="true">
          <label htmlFor={markId}>Kind</label>
          <select
            id={markId}
            value={texts.mark}
            onChange={event => onTexts({ ...texts, mark: event.target.value as PlannedMark })}
          >
            {Object.entries(markWords).map(([kind, words]) => (
              <option key={kind} value={kind}>
                {words}
              </option>
            ))}
          </select>
        </div>
        <Field label="From the spin axis" {...field('markFromAxis')} />
        <Field label="Click error" unit="px" {...field('click')} />
        <Field label="Frames at most" {...field('frames')} />
        <Field label="Mean’s band" unit="± rpm" {...field('wanted')} />
        <label className="foreseen-sense" data-wide="true">
          <input
            type="checkbox"
            checked={texts.senseKnown}
            onChange={event => onTexts({ ...texts, senseKnown: event.target.checked })}
          />
          Which way it spins is known
        </label>
      </fieldset>
    </form>
  )
}
