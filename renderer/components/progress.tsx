import './progress.css'
import type { Progress as ProgressData } from '../../core/contract/calls.ts'

type ProgressProps = { progress: ProgressData | null; what: string; onCancel?: () => void }

/** A wait, how far it is, and the way out of it. It shows itself only once the wait is worth a word. */
export function Progress({ progress, what, onCancel }: ProgressProps) {
  const total = progress?.total ?? null
  return (
    <div className="progress">
      <progress
        aria-label={progress?.what || what}
        {...(total ? { max: total, value: Math.min(progress?.done ?? 0, total) } : {})}
      />
      <span className="progress-what">{progress?.what || what}</span>
      {total !== null && (
        <span className="figure quiet">
          {progress?.done} of {total}
        </span>
      )}
      {onCancel && (
        <button type="button" className="plain" onClick={onCancel}>
          Cancel
        </button>
      )}
    </div>
  )
}
