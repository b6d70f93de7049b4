import { useState } from 'react'
import type { ClipRecord } from '../../../core/contract/workspace.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'

/** Asks, in the clip's own row, how fast it was filmed: no reading can be made without it. */
export function CaptureRate({ clip, cameraFps }: { clip: ClipRecord; cameraFps: number | null }) {
  const host = useHost()
  const act = useAct()
  const [text, setText] = useState('')
  const fps = Number(text.replace(',', '.'))
  const usable = text.trim() !== '' && fps > 0 && fps <= 1e6
  const say = (captureFps: number) =>
    act.run(options => host.call('clips.setCaptureFps', { clipId: clip.id, captureFps }, options))
  const quick = [...new Set([...(cameraFps === null ? [] : [cameraFps]), 120, 240])]

  return (
    <form
      className="capture-rate"
      onSubmit={event => {
        event.preventDefault()
        if (usable) say(fps)
      }}
    >
      <label>
        How fast was it filmed?
        <input
          className="figure"
          inputMode="decimal"
          value={text}
          onChange={event => setText(event.target.value)}
          aria-label={`Capture rate of ${clip.name} in frames a second`}
        />
        <span className="unit">fps</span>
      </label>
      <button type="submit" disabled={!usable || act.busy}>
        Keep
      </button>
      {quick.map(rate => (
        <button key={rate} type="button" className="plain" disabled={act.busy} onClick={() => say(rate)}>
          {rate}
          {rate === cameraFps ? ', as the session’s camera' : ''}
        </button>
      ))}
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </form>
  )
}
