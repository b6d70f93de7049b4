import type { Provenance, Verdict } from '../../core/contract/bench.ts'
import { verdictWords } from './verdict-words.ts'

type Judged = { verdict: Verdict; provenance?: Provenance | null }

/** Whose work a reading rests on, in a sentence. */
export const provenanceWords: Record<Provenance, string> = {
  clicked: 'Read from marks that a person placed.',
  accepted: 'Read by itself, looked at by a person.',
  untouched: 'Read by itself; nobody has looked at it yet.',
}

/** One word for where a hit stands: a reading that nobody has looked at is not merely open. */
export const standingOf = ({ verdict, provenance }: Judged): string =>
  provenance === 'untouched' && verdict.state === 'open' ? 'untouched' : verdictWords[verdict.state]
