import { useMemo } from 'react'
import type { SetUpRank } from '../../core/contract/standings.ts'
import { useAnswer } from './answers.ts'

/** What changes a paddle's figure or place. */
export const ratingChanges = ['hits', 'paddles', 'sessions', 'clips', 'ratings'] as const

/** The table of paddles. */
export const useTable = () => useAnswer('ratings.table', {}, [...ratingChanges])

/** Rank bands by set-up, as they are ready; empty before. `when` holds them back until the table stands. */
export function useRanks(when: boolean): ReadonlyMap<string, SetUpRank> {
  const { value } = useAnswer('ratings.ranks', when ? {} : null, [...ratingChanges])
  return useMemo(() => new Map(value?.map(rank => [rank.setUpId, rank])), [value])
}
