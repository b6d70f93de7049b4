import { useId } from 'react'
import type { TakenFrom } from '../../../core/contract/cameras.ts'
import { takenFrom } from '../../../core/planning/taken-from.ts'
import { useAnswer } from '../../state/answers.ts'
import { hrefOf } from '../../state/route.ts'

type TakeFromProps = { taken: TakenFrom | null; onTake: (from: TakenFrom | null) => void }

/** Fills a session's camera from one that was measured. The values are copied: they can be changed after. */
export function TakeFrom({ taken, onTake }: TakeFromProps) {
  const id = useId()
  const cameras = useAnswer('cameras.list', {}, ['cameras']).value ?? []
  // One that was removed since has still filled this session.
  const gone = taken !== null && !cameras.some(({ name }) => name === taken.name)
  return (
    <div className="field" data-wide="true">
      <label htmlFor={id}>Fill from</label>
      <div className="field-entry">
        <select
          id={id}
          value={taken?.name ?? ''}
          onChange={event => {
            const camera = cameras.find(({ name }) => name === event.target.value)
            onTake(camera ? takenFrom(camera) : null)
          }}
        >
          <option value="">no camera that was measured</option>
          {gone && <option value={taken.name}>{taken.name}, no longer kept</option>}
          {cameras.map(({ id: cameraId, name }) => (
            <option key={cameraId} value={name}>
              {name}
            </option>
          ))}
        </select>
        <a className="quiet" href={hrefOf({ screen: 'cameras', cameraId: null })}>
          Cameras
        </a>
      </div>
    </div>
  )
}
