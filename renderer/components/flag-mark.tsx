import './flag-mark.css'
import type { Flag } from '../../core/contract/reading.ts'
import { flagWords } from '../../core/picture/flag-shape.ts'

export { flagWords }

const shapes: Record<Flag, React.ReactNode> = {
  clear: <circle cx="8" cy="8" r="5.5" fill="currentColor" />,
  'near-ceiling': <path d="M2 2.25h12v2H2zM8 5.75l6 8.5H2z" fill="currentColor" />,
  ambiguous: <path d="M6.75 2.5a5.5 5.5 0 0 0 0 11zM9.25 2.5a5.5 5.5 0 0 1 0 11z" fill="currentColor" />,
  'too-few-frames': (
    <rect x="3" y="3" width="10" height="10" fill="none" stroke="currentColor" strokeWidth="1.75" />
  ),
}

/** A flag by shape, word and colour. `bare` leaves the word to ears where a column has no room. */
export function FlagMark({ flag, bare = false }: { flag: Flag; bare?: boolean }) {
  return (
    <span className="flag-mark" data-flag={flag} data-bare={bare} title={bare ? flagWords[flag] : undefined}>
      <svg viewBox="0 0 16 16" width="1em" height="1em" aria-hidden="true">
        {shapes[flag]}
      </svg>
      <span className={bare ? 'unseen' : undefined}>{flagWords[flag]}</span>
    </span>
  )
}
