import type { Verdict } from '../../core/contract/bench.ts'

export const verdictWords: Record<Verdict['state'], string> = {
  open: 'open',
  accepted: 'accepted',
  'held-back': 'held back',
}
