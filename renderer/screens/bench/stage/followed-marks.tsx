import { useState } from 'react'
import type { PlacedOutline } from '../../../../core/contract/bench.ts'
import { ProblemNote } from '../../../components/problem-note.tsx'
import { followMark, markHidden } from '../state/marking.ts'
import { canTakeOff, takeOff } from '../state/place.ts'
import { workOnRim } from '../state/rim.ts'
import { useBench, useBenchStore } from '../state/use-bench.ts'
import { MarkForm } from './mark-form.tsx'
import { MarkGlyph } from './mark-look.tsx'
import { UndoSteps } from './undo-steps.tsx'

/** What is worked on: the rim, or one of the marks; and what can be said of it in this frame. */
export function FollowedMarks() {
  const store = useBenchStore()
  const marks = useBench(state => state.marks)
  const mode = useBench(state => state.mode)
  const chosen = useBench(state => state.mark)
  const problem = useBench(state => state.problem)
  const set = useBench(state => state.set)
  const [form, setForm] = useState<string | null>(null)
  const known = marks.outlines.length > 0
  const removable = useBench(canTakeOff)
  return (
    <div className="followed">
      <ul aria-label="Work on">
        <li>
          <button
            type="button"
            className="follow"
            aria-pressed={mode === 'outline'}
            onClick={() => workOnRim(store)}
          >
            <svg viewBox="-8 -8 16 16" width="14" height="14" aria-hidden="true">
              <circle r="6" fill="none" stroke="currentColor" strokeWidth="1.5" />
            </svg>
            rim
            <span className="follow-about">{placedWords(marks.outlines)}</span>
          </button>
        </li>
        {marks.marks.map((mark, index) => (
          <li key={mark.id}>
            <button
              type="button"
              className="follow"
              aria-pressed={mode === 'mark' && mark.id === chosen}
              disabled={!known}
              onClick={() => followMark(store, mark.id)}
            >
              <svg viewBox="-8 -8 16 16" width="14" height="14" aria-hidden="true">
                <MarkGlyph index={index} x={0} y={0} size={5} />
              </svg>
              {mark.id}
              <span className="follow-about">
                {mark.kind === 'direction' ? 'a line' : 'a point'}
                {mark.symmetryOrder > 1 && `, alike ${mark.symmetryOrder}×`}
              </span>
            </button>
            <button
              type="button"
              className="plain"
              aria-label={`Change ${mark.id}`}
              aria-expanded={form === mark.id}
              onClick={() => setForm(form === mark.id ? null : mark.id)}
            >
              change
            </button>
          </li>
        ))}
      </ul>
      {form === null ? (
        <p className="followed-steps">
          <button type="button" onClick={() => markHidden(store)} disabled={mode !== 'mark'}>
            Hidden here
          </button>
          <button type="button" onClick={() => takeOff(store)} disabled={!removable}>
            Take off
          </button>
          <button type="button" className="plain" onClick={() => setForm('')}>
            another mark
          </button>
          <UndoSteps />
        </p>
      ) : (
        <MarkForm key={form} id={form} onDone={() => setForm(null)} />
      )}
      {problem?.place === 'marks' && (
        <ProblemNote problem={problem.problem} onForget={() => set({ problem: null })} />
      )}
    </div>
  )
}

function placedWords(outlines: readonly PlacedOutline[]): string {
  const found = outlines.filter(outline => outline.found).length
  const placed = outlines.length - found
  return found === 0 ? `${placed} placed` : `${found} found${placed > 0 ? `, ${placed} placed` : ''}`
}
