import { hrefOf } from '../state/route.ts'

/** Where one mark was in the last four frames, the oldest faintest: degrees and strength. */
const seen = [
  { deg: -210, strength: 0.18 },
  { deg: -152, strength: 0.34 },
  { deg: -94, strength: 0.6 },
  { deg: -36, strength: 1 },
]

/** The program's name with its sign: a ball, and the way that a mark on it turned. */
export function Wordmark() {
  return (
    <a className="wordmark" href={hrefOf({ screen: 'sessions', sessionId: null })} aria-label="Whorl, home">
      <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true" stroke="currentColor" fill="none">
        <circle cx="10" cy="10" r="9" strokeWidth="1.5" />
        {seen.map(({ deg, strength }) => (
          <path
            key={deg}
            d="M13 10h3.4"
            strokeWidth="2.4"
            opacity={strength}
            transform={`rotate(${deg} 10 10)`}
          />
        ))}
      </svg>
      Whorl
    </a>
  )
}
