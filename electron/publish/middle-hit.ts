import { heldBackReason } from '../../core/ratings/held-back-reason.ts'
import type { Parts } from '../service/parts.ts'
import { rated } from '../service/rating-figures.ts'

/** The hit of a set-up whose rate lies in the middle of those that its figure is made from; null without any. */
export function middleHit({ workspace }: Pick<Parts, 'workspace'>, setUpId: string): string | null {
  const used = workspace
    .evidence({ setUpId })
    .filter(evidence => heldBackReason(rated(evidence)) === null)
    .toSorted((a, b) => (a.row.reading?.rpm ?? 0) - (b.row.reading?.rpm ?? 0))
  return used[used.length >> 1]?.row.hitId ?? null
}
