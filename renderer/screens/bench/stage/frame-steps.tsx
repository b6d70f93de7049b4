import { goToFirst, goToLast, step } from '../state/going.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { MarkHere } from './mark-here.tsx'

/** Which frame this is, when it was, and the buttons that go to others. */
export function FrameSteps() {
  const store = useBenchStore()
  const frame = useBench(state => state.frame)
  const playing = useBench(state => state.playing)
  const { fromFrame, toFrame } = useBench(state => state.marks.window)
  const milliseconds = useBench(
    state => ((state.timesSeconds[state.frame] ?? 0) - (state.timesSeconds[fromFrame] ?? 0)) * 1000,
  )
  const inHit = frame >= fromFrame && frame <= toFrame
  return (
    <div className="frame-steps">
      <MarkHere />
      <p className="frame-now">
        <span className="unit">frame</span> <span className="figure">{frame}</span>
      </p>
      <p className="figure frame-time">
        {inHit
          ? `${frame - fromFrame + 1} of ${toFrame - fromFrame + 1}, ${milliseconds.toFixed(1)} ms`
          : 'outside the hit'}
      </p>
      {/* biome-ignore lint/a11y/useSemanticElements: buttons side by side, not a form's fieldset. */}
      <div className="frame-buttons" role="group" aria-label="Go to frame">
        <button
          type="button"
          onClick={() => goToFirst(store)}
          aria-label="First frame of the hit"
          title="First (Q)"
        >
          ⇤
        </button>
        <button type="button" onClick={() => step(store, -1)} aria-label="One frame back" title="Back (A)">
          ←
        </button>
        <button
          type="button"
          onClick={() => store.setState({ playing: !playing })}
          title="Run slowly (Space)"
        >
          {playing ? 'Stop' : 'Run'}
        </button>
        <button type="button" onClick={() => step(store, 1)} aria-label="One frame on" title="On (D)">
          →
        </button>
        <button
          type="button"
          onClick={() => goToLast(store)}
          aria-label="Last frame of the hit"
          title="Last (E)"
        >
          ⇥
        </button>
      </div>
    </div>
  )
}
