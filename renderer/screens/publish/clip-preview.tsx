import { useId, useState } from 'react'
import type { ClipOrder, PublishedFile } from '../../../core/contract/publish.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'
import { usePublishSettings } from './publish-settings.ts'
import { save, useAddress } from './published-bytes.ts'
import { useSettled } from './use-settled.ts'
import type { ChosenHit } from './what.ts'

/** One frame of the clip as it will be, at any position; then the clip itself. */
export function ClipPreview({ hit }: { hit: ChosenHit }) {
  const host = useHost()
  const act = useAct()
  const id = useId()
  const { clip, look, formats } = usePublishSettings()
  const last = hit.window.toFrame - hit.window.fromFrame
  const [frame, setFrame] = useState(Math.floor(last / 2))
  const [made, setMade] = useState<{ order: string; file: PublishedFile } | null>(null)
  const order: ClipOrder = { ...clip, hitId: hit.hitId, format: formats.clip, figures: look.figures }
  const seen = useAnswer('publish.clipFrame', useSettled({ order, frame }), ['hits', 'clips'])
  const address = useAddress(seen.value)
  const file = made?.order === JSON.stringify(order) ? made.file : null
  const make = () =>
    act.run(async options => {
      const film = await host.call('publish.clip', order, options)
      setMade({ order: JSON.stringify(order), file: film })
    })
  return (
    <>
      <p className="publish-steps">
        {file ? (
          <button type="button" className="main" onClick={() => save(file)}>
            Save {formats.clip.toUpperCase()}
          </button>
        ) : (
          <button type="button" className="main" disabled={act.busy} onClick={make}>
            Make the clip
          </button>
        )}
        {file?.notes.map(note => (
          <span key={note} className="quiet">
            {note}
          </span>
        ))}
      </p>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
      {act.busy && <Progress progress={act.progress} what="Drawing" onCancel={act.cancel} />}
      {file && <Film file={file} />}
      {!file && (
        <>
          {seen.problem && <ProblemNote problem={seen.problem} onAgain={seen.again} />}
          {!seen.value && !seen.problem && <Progress progress={null} what="Drawing a frame" />}
          {address && !seen.problem && (
            <>
              <div className="publish-sheet" data-moves="true">
                <img src={address} alt={`Frame ${frame} of the clip`} />
              </div>
              <div className="publish-scrub">
                <label htmlFor={id}>Frame</label>
                <input
                  id={id}
                  type="range"
                  min={0}
                  max={last}
                  value={frame}
                  onChange={event => setFrame(Number(event.target.value))}
                />
                <span className="figure">
                  {frame} of {last}
                </span>
              </div>
            </>
          )}
        </>
      )}
    </>
  )
}

function Film({ file }: { file: PublishedFile }) {
  const address = useAddress(file)
  if (address === null) return null
  return (
    <>
      <p className="quiet">
        A clip filmed under lamps on the mains can flicker as it plays: leave it to those whom flicker does
        not trouble.
      </p>
      <div className="publish-sheet" data-moves="true">
        {file.mediaType.startsWith('video/') ? (
          <video src={address} controls loop muted aria-label="The annotated clip" />
        ) : (
          <img src={address} alt="The annotated clip" />
        )}
      </div>
    </>
  )
}
