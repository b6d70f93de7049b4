import { useState } from 'react'
import type { CameraProfile, CameraProfileDetails, FoundBy } from '../../../core/contract/cameras.ts'
import { textOfSeconds } from '../../../core/units/duration.ts'
import { Fact } from '../../components/fact.tsx'
import { digits } from '../../components/figure-text.ts'
import { RemoveStep } from '../../components/remove-step.tsx'
import { inMilliseconds } from '../../components/typed.ts'
import { useHost } from '../../host/host.ts'
import { CameraForm } from './camera-form.tsx'
import { CheckGuide } from './check-guide.tsx'
import type { Checked } from './check-ways.ts'
import { foundWords } from './found-words.ts'

/** One camera: what is known of it and how, and the checks that make it known. */
export function CameraCard({ camera, onRemoved }: { camera: CameraProfile; onRemoved: () => void }) {
  const host = useHost()
  const [doing, setDoing] = useState<'changing' | Checked | null>(null)
  const keep = async (details: CameraProfileDetails) => {
    await host.call('cameras.keep', { cameraId: camera.id, details })
    setDoing(null)
  }
  if (doing === 'changing')
    return <CameraForm before={camera} onKeep={keep} onCancel={() => setDoing(null)} />
  const { rate, readout, focal, exposureSeconds, widthPx, heightPx } = camera
  const check = (what: Checked, known: boolean) => (
    <button
      type="button"
      className={known ? 'plain' : ''}
      aria-expanded={doing === what}
      onClick={() => setDoing(what)}
    >
      {known ? 'Check again' : 'Check it'}
    </button>
  )
  return (
    <article className="camera-card" aria-label={camera.name}>
      <h2>{camera.name}</h2>
      <dl>
        <Fact word="Mode">
          {widthPx && heightPx ? `${widthPx} × ${heightPx} at ` : ''}
          {camera.nominalFps} fps
        </Fact>
        <Fact word="True rate">
          {rate ? (
            <Known
              figure={`${rate.captureFps.toFixed(3)} ± ${(2 * rate.captureFps * rate.relativeUncertainty).toFixed(3)} fps`}
              by={rate.by}
            />
          ) : (
            <span className="quiet">taken to be {camera.nominalFps} fps, which nobody has checked</span>
          )}
          {check('rate', rate !== null)}
        </Fact>
        <Fact word="Readout">
          {readout ? (
            <Known
              figure={`${inMilliseconds(readout.seconds)}${readout.uncertaintySeconds === null ? '' : ` ± ${inMilliseconds(2 * readout.uncertaintySeconds)}`}`}
              by={readout.by}
            />
          ) : (
            <span className="quiet">
              not known: a ball that moves down the picture reads up to some 5 % wrong
            </span>
          )}
          {check('readout', readout !== null)}
        </Fact>
        <Fact word="Focal length">
          {focal ? (
            <Known
              figure={`${digits(focal.focalLengthPx)}${focal.uncertaintyPx === null ? '' : ` ± ${digits(2 * focal.uncertaintyPx)}`} px`}
              by={focal.by}
            />
          ) : (
            <span className="quiet">not known: the changing line of sight widens the band</span>
          )}
          {check('focal', focal !== null)}
        </Fact>
        <Fact word="Usual exposure">
          {exposureSeconds === null ? (
            <span className="quiet">not said</span>
          ) : (
            textOfSeconds(exposureSeconds)
          )}
        </Fact>
        {camera.notes && <Fact word="Notes">{camera.notes}</Fact>}
      </dl>
      <p className="quiet">Figures with ± hold the truth with 95 %.</p>
      <div className="camera-steps">
        <button type="button" className="plain" onClick={() => setDoing('changing')}>
          Change
        </button>
        <RemoveStep
          word="Remove camera"
          loses="Sessions and readings keep the values that they took from it."
          onRemove={async () => {
            await host.call('cameras.remove', { cameraId: camera.id })
            onRemoved()
          }}
        />
      </div>
      {doing && (
        <CheckGuide key={doing} camera={camera} what={doing} onKeep={keep} onLeave={() => setDoing(null)} />
      )}
    </article>
  )
}

function Known({ figure, by }: { figure: string; by: FoundBy }) {
  return (
    <>
      <span className="figure">{figure}</span> <span className="quiet">{foundWords(by)}</span>
    </>
  )
}
