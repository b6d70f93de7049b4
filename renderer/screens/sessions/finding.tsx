import type { Effect, Warning } from '../../../core/contract/clip.ts'

/** What a finding does to a reading. */
const effectWords: Record<Effect, string> = {
  none: 'No effect',
  correct: 'Corrected',
  widen: 'Less sure',
  refuse: 'Do not measure',
}

/** One finding on a clip: what it does to a reading, what was found, what to do. */
export function Finding({ finding }: { finding: Warning }) {
  const { message, effect, todo } = finding
  return (
    <p className="quiet">
      {effect && (
        <strong className="finding-effect" data-effect={effect}>
          {effectWords[effect]}
        </strong>
      )}
      {message} {todo}
    </p>
  )
}
