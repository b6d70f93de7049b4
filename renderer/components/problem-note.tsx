import './problem-note.css'
import type { Problem } from '../../core/contract/problem.ts'

type ProblemNoteProps = {
  problem: Problem
  children?: React.ReactNode
  onAgain?: () => void
  onForget?: () => void
}

/** A problem where it happened: what is wrong, the way out, and the step that takes it (as children). */
export function ProblemNote({ problem, children, onAgain, onForget }: ProblemNoteProps) {
  return (
    <div className="problem-note" role="alert" data-code={problem.code}>
      <p>{problem.message}</p>
      <p className="quiet">{problem.hint}</p>
      {(children || onAgain || onForget) && (
        <p className="problem-note-steps">
          {children}
          {onAgain && (
            <button type="button" className="plain" onClick={onAgain}>
              Try again
            </button>
          )}
          {onForget && (
            <button type="button" className="plain" onClick={onForget}>
              Dismiss
            </button>
          )}
        </p>
      )}
    </div>
  )
}
