import { useState } from 'react'
import { FileChooser } from '../../components/file-chooser.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import { LooseFrame } from './loose-frame.tsx'
import type { Check } from './use-check.ts'

/** The clip that a check looks at: chosen, and where a person must see a frame of it, shown. */
export function CheckClip({ check }: { check: Check }) {
  const { guide, file, open, opening, frame, setFrame, rim, circle, click, say, tried } = check
  const [choosing, setChoosing] = useState(false)
  return (
    <>
      <div className="check-clip">
        <button type="button" disabled={opening.busy || choosing} onClick={() => setChoosing(true)}>
          {file ? 'Choose another clip…' : 'Choose the clip…'}
        </button>
        {file && (
          <span>
            {file.clip.name} <span className="quiet">{file.clip.frames} frames</span>
          </span>
        )}
        {tried && !file && <span className="field-problem">The clip that shows it.</span>}
      </div>
      {choosing && (
        <FileChooser
          purpose="clips"
          single
          verb="Choose"
          onChosen={([path]) => {
            setChoosing(false)
            if (path !== undefined) open(path)
          }}
          onCancel={() => setChoosing(false)}
        />
      )}
      {opening.problem && <ProblemNote problem={opening.problem} onForget={opening.forget} />}
      {file && (guide.way === 'counter' || guide.way === 'ball') && (
        <LooseFrame
          clip={file.clip}
          frame={frame}
          onFrame={setFrame}
          {...(guide.way === 'ball' ? { rim, onRim: click, circle } : {})}
        />
      )}
      {file && guide.way === 'counter' && (
        <div className="check-clip">
          <button type="button" onClick={() => say('fromFrame', String(frame))}>
            This is the early frame
          </button>
          <button type="button" onClick={() => say('toFrame', String(frame))}>
            This is the late frame
          </button>
        </div>
      )}
    </>
  )
}
