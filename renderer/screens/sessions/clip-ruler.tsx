import './clip-ruler.css'
import { useRef } from 'react'
import type { ListedHit } from '../../../core/contract/workspace.ts'
import { digits } from '../../components/figure-text.ts'

type ClipRulerProps = {
  frames: number
  fps: number
  hits: ListedHit[]
  frame: number
  onFrame: (frame: number) => void
}

/** The whole clip as a ruler of real time, its hits as spans, and the frame that is looked at. */
export function ClipRuler({ frames, fps, hits, frame, onFrame }: ClipRulerProps) {
  const rule = useRef<HTMLDivElement>(null)
  const last = Math.max(1, frames - 1)
  const at = (of: number) => `${(100 * of) / last}%`
  const seconds = last / fps
  const step = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 60, 120].find(each => seconds / each <= 10) ?? 300
  const ticks = Array.from({ length: Math.floor(seconds / step) + 1 }, (_, index) => index * step)
  const clamp = (to: number) => Math.min(last, Math.max(0, Math.round(to)))
  const follow = (event: React.PointerEvent) => {
    const box = rule.current?.getBoundingClientRect()
    if (box && box.width > 0) onFrame(clamp(((event.clientX - box.left) / box.width) * last))
  }
  const moves: Record<string, number> = {
    ArrowLeft: frame - 1,
    ArrowRight: frame + 1,
    PageDown: frame - Math.round(fps / 10),
    PageUp: frame + Math.round(fps / 10),
    Home: 0,
    End: last,
  }

  return (
    <div
      ref={rule}
      className="clip-ruler"
      role="slider"
      tabIndex={0}
      aria-label="Frame"
      aria-valuemin={0}
      aria-valuemax={last}
      aria-valuenow={frame}
      aria-valuetext={`frame ${frame}, ${digits(frame / fps, 3)} seconds`}
      onPointerDown={event => {
        event.currentTarget.setPointerCapture(event.pointerId)
        follow(event)
      }}
      onPointerMove={event => event.buttons > 0 && follow(event)}
      onKeyDown={event => {
        const to = moves[event.key]
        if (to === undefined) return
        event.preventDefault()
        onFrame(clamp(to))
      }}
    >
      {hits.map((hit, index) => (
        <span
          key={hit.hitId}
          className="clip-ruler-hit figure"
          data-state={hit.verdict.state}
          style={{ left: at(hit.window.fromFrame), width: at(hit.window.toFrame - hit.window.fromFrame) }}
        >
          {index + 1}
        </span>
      ))}
      {ticks.map(tick => (
        <span
          key={tick}
          className="clip-ruler-tick figure"
          data-first={tick === 0}
          style={{ left: at(tick * fps) }}
        >
          {digits(tick, step < 1 ? 1 : 0)}
        </span>
      ))}
      <span className="clip-ruler-unit unit">s</span>
      <span className="clip-ruler-now" style={{ left: at(frame) }} />
    </div>
  )
}
