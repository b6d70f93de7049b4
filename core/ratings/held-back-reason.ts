import { mishitWords } from './mishits.ts'
import type { RatedHit } from './rated-hit.ts'

/** Why a hit is left out of its paddle's mean, and whether a rule or a person's hand did it. */
export type HeldBack = { reason: string; by: 'rule' | 'hand' }

/**
 * Why a hit may not go into its paddle's mean, or null when it may. The person's own word comes first:
 * only an accepted hit is rated, and an accepted one only where its figure can be stood by.
 */
export function heldBackReason(hit: RatedHit): HeldBack | null {
  const { state, reason } = hit.verdict
  if (state === 'held-back') return reason.startsWith(mishitWords) ? byRule(reason) : byHand(reason)
  if (state === 'open') return byRule('Not accepted yet.')
  if (hit.stale) return byRule('Its marks or its camera changed after the reading; open it to read it again.')
  if (hit.flag === 'too-few-frames') return byRule('Too few frames to trust the figure.')
  if (hit.rpm === null) return byRule('It has no reading.')
  if (hit.flag === 'ambiguous' && hit.settledReason === null)
    return byRule('Another rate fits as well, and nobody has chosen.')
  if (!(hit.standardUncertaintyRpm! > 0)) return byRule('Its reading has no band.')
  return null
}

const byRule = (reason: string): HeldBack => ({ reason, by: 'rule' })
const byHand = (reason: string): HeldBack => ({
  reason: reason === '' ? 'Held back by hand.' : `Held back by hand: ${reason}`,
  by: 'hand',
})
