import { WhorlError } from '../contract/problem.ts'
import type { PaddleComparison, PaddleTable } from '../contract/standings.ts'
import { withBorrowedSpread } from './borrowed-spread.ts'
import { allPairs, comparePairs } from './compare.ts'
import type { NamedSetUp } from './paddle-table.ts'

/** Set-ups with a figure against each other, every pair once, in the order given; those without have a row alone. Throws `not-in-workspace`. */
export function comparisonOf(
  { setUps, table }: { setUps: readonly NamedSetUp[]; table: PaddleTable },
  setUpIds: readonly string[],
): PaddleComparison {
  const rows = [...new Set(setUpIds)].map(id => {
    const row = table.rows.find(one => one.setUpId === id)
    if (!row) throw new WhorlError('not-in-workspace', { what: 'set-up', id })
    return row
  })
  const rated = setUps.flatMap(one => (one.figure === null ? [] : [{ ...one, figure: one.figure }]))
  const means = new Map(
    withBorrowedSpread(rated.map(({ figure }) => figure)).map((mean, i) => [rated[i]!.setUpId, mean]),
  )
  const pairs = allPairs(rows.filter(row => means.has(row.setUpId)).map(row => row.setUpId))
  const compared = comparePairs(pairs.map(([a, b]) => [means.get(a)!, means.get(b)!] as const))
  return {
    rows,
    pairs: compared.map((one, i) => {
      const [a, b] = pairs[i]!
      const sources = new Set(means.get(a)!.shared.map(part => part.source))
      const sharesCamera = means.get(b)!.shared.some(part => sources.has(part.source))
      return { a, b, ...one, sharesCamera }
    }),
  }
}
