import { useState } from 'react'
import type { LooseClip } from '../../../core/contract/checks.ts'
import { Picture } from '../../components/picture.tsx'

export type RimPoint = { xPx: number; yPx: number }
type LooseFrameProps = {
  clip: LooseClip
  frame: number
  onFrame: (frame: number) => void
  /** Places that were clicked, px of the whole picture; left out: a click does nothing. */
  rim?: RimPoint[]
  onRim?: (at: RimPoint, shrunk: number) => void
  circle?: { xPx: number; yPx: number; radiusPx: number } | null
}

/** One frame of a clip that is checked, to look for a count or to click on a ball’s rim. */
export function LooseFrame({ clip, frame, onFrame, rim = [], onRim, circle }: LooseFrameProps) {
  const [shown, setShown] = useState<SVGSVGElement | null>(null)
  const click = (event: React.PointerEvent) => {
    const box = shown?.getBoundingClientRect()
    if (!box || box.width === 0 || !onRim) return
    const shrunk = clip.widthPx / box.width
    onRim({ xPx: (event.clientX - box.left) * shrunk, yPx: (event.clientY - box.top) * shrunk }, shrunk)
  }
  const dot = clip.widthPx / 160
  return (
    <div className="loose-frame">
      <div className="loose-frame-picture" style={{ aspectRatio: `${clip.widthPx} / ${clip.heightPx}` }}>
        <Picture clipId={clip.id} frame={frame} maxWidthPx={960} name={`Frame ${frame} of ${clip.name}`} />
        <svg
          ref={setShown}
          viewBox={`0 0 ${clip.widthPx} ${clip.heightPx}`}
          data-clicks={onRim !== undefined}
          onPointerDown={click}
          aria-hidden="true"
        >
          {circle && (
            <circle className="loose-frame-ring" cx={circle.xPx} cy={circle.yPx} r={circle.radiusPx} />
          )}
          {rim.map(({ xPx, yPx }) => (
            <circle key={`${xPx} ${yPx}`} className="loose-frame-dot" cx={xPx} cy={yPx} r={dot} />
          ))}
        </svg>
      </div>
      <label className="loose-frame-steps">
        <span className="figure">frame {frame}</span>
        <input
          type="range"
          min={0}
          max={clip.frames - 1}
          value={frame}
          onChange={event => onFrame(Number(event.target.value))}
          aria-label="Frame"
        />
        <span className="figure quiet">of {clip.frames}</span>
      </label>
    </div>
  )
}
