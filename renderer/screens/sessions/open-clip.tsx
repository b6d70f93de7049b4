import { useState } from 'react'
import type { ClipRecord, ListedHit, Paddle } from '../../../core/contract/workspace.ts'
import { digits } from '../../components/figure-text.ts'
import { PaddlePicker } from '../../components/paddle-picker.tsx'
import { Picture } from '../../components/picture.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { RemoveStep } from '../../components/remove-step.tsx'
import { RpmAxis } from '../../components/rpm-axis.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { go } from '../../state/route.ts'
import { ClipRuler } from './clip-ruler.tsx'
import { FindHits } from './find-hits.tsx'
import { HitLine } from './hit-line.tsx'
import { windowAround } from './hit-window.ts'

type OpenClipProps = {
  clip: ClipRecord
  hits: ListedHit[]
  paddles: Paddle[]
  cameraFps: number | null
  scale: RpmScale
}

/** A clip opened: look through it, its hits, and a new hit that leads to the bench. */
export function OpenClip({ clip, hits, paddles, cameraFps, scale }: OpenClipProps) {
  const host = useHost()
  const act = useAct()
  const { probe } = clip
  const fps = probe?.capture.fps ?? cameraFps ?? probe?.playbackFps ?? 1
  const [frame, setFrame] = useState(hits[0]?.window.fromFrame ?? Math.floor((probe?.frames ?? 0) / 2))
  const newHit = () =>
    act.run(async () => {
      const window = windowAround(frame, { frames: probe?.frames ?? 0, fps })
      const { row } = await host.call('hits.create', { clipId: clip.id, window })
      go({ screen: 'bench', hitId: row.hitId })
    })
  const assignAll = (setUpId: string | null) =>
    act.run(async () => {
      for (const hit of hits) await host.call('hits.assign', { hitId: hit.hitId, setUpId })
    })
  const shared = hits.every(hit => hit.setUpId === hits[0]?.setUpId) ? (hits[0]?.setUpId ?? null) : null

  return (
    <div className="open-clip" ref={bringIntoView}>
      {probe && (
        <div className="open-clip-look">
          <Picture clipId={clip.id} frame={frame} maxWidthPx={512} name={`Frame ${frame} of ${clip.name}`} />
          <p className="figure">
            {frame}
            <span className="unit">{'\u00a0frame'}</span> {digits(frame / fps, 3)}
            <span className="unit">{'\u00a0s'}</span>
          </p>
        </div>
      )}
      <div className="open-clip-hits">
        {probe && <ClipRuler frames={probe.frames} fps={fps} hits={hits} frame={frame} onFrame={setFrame} />}
        {hits.length > 0 && (
          <div className="hit-line hit-line-scale" aria-hidden="true">
            <span className="unit">rpm</span>
            <RpmAxis scale={scale} />
          </div>
        )}
        <ol>
          {hits.map((hit, index) => (
            <HitLine key={hit.hitId} hit={hit} number={index + 1} paddles={paddles} scale={scale} />
          ))}
        </ol>
        {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
        <div className="session-steps">
          {!probe && !clip.problem && (
            <span className="quiet">A hit can be made as soon as the clip was looked at.</span>
          )}
          {probe && <FindHits clipId={clip.id} isFirst={hits.length === 0} />}
          <button type="button" disabled={!probe || act.busy} onClick={newHit}>
            New hit here
          </button>
          {hits.length > 1 && (
            <div className="open-clip-all">
              <span className="quiet">All {hits.length} hits by</span>
              <PaddlePicker
                paddles={paddles}
                setUpId={shared}
                onPick={assignAll}
                label={`Paddle of all hits of ${clip.name}`}
                none={shared === null && hits.some(hit => hit.setUpId) ? 'several paddles' : 'no paddle yet'}
              />
            </div>
          )}
          <RemoveStep
            word="Remove clip"
            loses={hits.length > 0 ? `The marks on its hits are lost; the file stays.` : 'The file stays.'}
            onRemove={() => host.call('clips.remove', { clipId: clip.id })}
          />
        </div>
      </div>
    </div>
  )
}

const bringIntoView = (clip: HTMLElement | null) => clip?.scrollIntoView({ block: 'nearest' })
