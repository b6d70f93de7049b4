import '../../components/aside-screen.css'
import './cameras.css'
import { useState } from 'react'
import type { CameraProfile, CameraProfileDetails } from '../../../core/contract/cameras.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAnswer } from '../../state/answers.ts'
import { go, hrefOf } from '../../state/route.ts'
import { CameraCard } from './camera-card.tsx'
import { CameraForm } from './camera-form.tsx'

/** The cameras, each in one mode, as they were measured: what sessions are filled from. */
export function Cameras({ cameraId }: { cameraId: string | null }) {
  const host = useHost()
  const { value: cameras, problem, again } = useAnswer('cameras.list', {}, ['cameras'])
  const [making, setMaking] = useState(false)
  const open = cameras?.find(({ id }) => id === cameraId) ?? (making ? undefined : cameras?.[0])
  const show = (id: string | null) => go({ screen: 'cameras', cameraId: id }, 'in place')
  const make = async (details: CameraProfileDetails) => {
    const { id } = await host.call('cameras.keep', { cameraId: null, details })
    setMaking(false)
    show(id)
  }
  if (!cameras)
    return problem ? (
      <ProblemNote problem={problem} onAgain={again} />
    ) : (
      <Progress progress={null} what="Looking for cameras" />
    )
  return (
    <div className="cameras aside-screen">
      <nav aria-label="Cameras">
        <h1>Cameras</h1>
        <ul>
          {cameras.map(camera => (
            <li key={camera.id}>
              <a
                href={hrefOf({ screen: 'cameras', cameraId: camera.id })}
                aria-current={!making && camera === open ? 'true' : undefined}
                onClick={() => setMaking(false)}
              >
                <span>{camera.name}</span>
                <span className="quiet">{stateOf(camera)}</span>
              </a>
            </li>
          ))}
        </ul>
        {!making && (
          <button
            type="button"
            className={cameras.length === 0 ? 'main' : ''}
            onClick={() => setMaking(true)}
          >
            New camera
          </button>
        )}
      </nav>
      <section aria-label="Camera">
        {making ? (
          <CameraForm before={null} onKeep={make} onCancel={() => setMaking(false)} />
        ) : open ? (
          <CameraCard key={open.id} camera={open} onRemoved={() => show(null)} />
        ) : (
          <p className="cameras-empty">
            A camera’s true rate, readout and focal length will stand here, with how they were found. “240
            fps” is what a camera is set to; what it truly films scales every reading. Name yours, then check
            it with a clip of something of known speed.
          </p>
        )}
      </section>
    </div>
  )
}

/** What has been made sure of, in a few words. */
function stateOf({ nominalFps, rate, readout, focal }: CameraProfile): string {
  const known = [rate && 'rate', readout && 'readout', focal && 'focal length'].filter(word => word !== null)
  return `${nominalFps} fps · ${known.length === 0 ? 'nothing checked yet' : `${known.join(', ')} known`}`
}
