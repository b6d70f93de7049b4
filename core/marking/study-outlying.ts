import betaCdf from '@stdlib/stats-base-dists-beta-cdf'

/** One cell's sum of squared deviations from its mean, and its degrees of freedom. */
export type CellSquares = { sumOfSquares: number; dof: number }
export type Outlying = { index: number; grade: 'straggler' | 'outlier' }

/**
 * Cells whose markings lie too far apart to be chance, the worst first: an outlier would come up in 1 % of
 * studies, a straggler in 5 %. Cochran's test: a cell's share of all squares is beta(ν/2, (Σν − ν)/2), the
 * largest of p cells is judged at p times its own tail. After each find the rest is tested again.
 *
 * Source: ISO 5725-2:1994, 7.3.3, which has the words too; for ν = 2 it is Fisher's test for the largest
 * ordinate (Proc. R. Soc. A 125 (1929) 54).
 */
export function outlyingCells(cells: readonly CellSquares[]): Outlying[] {
  const left = new Set(cells.keys())
  const found: Outlying[] = []
  while (left.size > 2) {
    const squares = sum([...left].map(i => cells[i]!.sumOfSquares))
    const dof = sum([...left].map(i => cells[i]!.dof))
    const chances = [...left].map(index => {
      const { sumOfSquares, dof: own } = cells[index]!
      const share = squares > 0 && own > 0 ? sumOfSquares / squares : 0
      return { index, chance: share > 0 ? left.size * (1 - betaCdf(share, own / 2, (dof - own) / 2)) : 1 }
    })
    const { index, chance } = chances.reduce((worst, each) => (each.chance < worst.chance ? each : worst))
    if (!(chance < 0.05)) break
    found.push({ index, grade: chance < 0.01 ? 'outlier' : 'straggler' })
    left.delete(index)
  }
  return found
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)
