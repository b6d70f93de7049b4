import { describe, expect, it } from 'vitest'
import { outlyingCells } from '../../../core/marking/study-outlying.ts'

/** One cell with the given share of all squares, the others alike. */
const withShare = (share: number, cells: number, dof: number) =>
  Array.from({ length: cells }, (_, i) => ({
    sumOfSquares: i === 3 ? share : (1 - share) / (cells - 1),
    dof,
  }))

describe('Cochran’s test of the largest variance', () => {
  it.each([
    // Critical values at 1 % and 5 %, p cells of n results: ISO 5725-2:1994, table 4; values from memory.
    { cells: 10, dof: 1, at1: 0.718, at5: 0.602 },
    { cells: 10, dof: 2, at1: 0.536, at5: 0.445 },
    { cells: 20, dof: 1, at1: 0.48, at5: 0.389 },
    // For two degrees of freedom 1 − (α/p)^(1/(p − 1)) in closed form (Fisher 1929): 0.330 and 0.270.
    { cells: 20, dof: 2, at1: 0.33, at5: 0.27 },
  ])(
    'finds what the table finds in $cells cells with $dof degrees of freedom',
    ({ cells, dof, at1, at5 }) => {
      expect(outlyingCells(withShare(at1 + 0.005, cells, dof))[0]).toEqual({ index: 3, grade: 'outlier' })
      expect(outlyingCells(withShare(at1 - 0.005, cells, dof))[0]).toEqual({ index: 3, grade: 'straggler' })
      expect(outlyingCells(withShare(at5 + 0.005, cells, dof))[0]).toEqual({ index: 3, grade: 'straggler' })
      expect(outlyingCells(withShare(at5 - 0.005, cells, dof))).toEqual([])
    },
  )

  it('finds a second one once the first is set aside', () => {
    const cells = withShare(0.9, 12, 2)
    cells[5] = { sumOfSquares: 0.2, dof: 2 }
    expect(outlyingCells(cells).map(({ index }) => index)).toEqual([3, 5])
  })

  it('finds nothing where there is no scatter, or no cell', () => {
    expect(outlyingCells(Array.from({ length: 10 }, () => ({ sumOfSquares: 0, dof: 2 })))).toEqual([])
    expect(outlyingCells([])).toEqual([])
  })
})
