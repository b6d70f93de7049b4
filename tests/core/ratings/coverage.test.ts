import { describe, expect, it } from 'vitest'
import { bandCoverage, type Cell, differing, hardlyDiffering, sharing } from './band-coverage.ts'

/** Every fifth cell, as the whole grid takes a minute: `npx tsx tests/bench/ratings.ts` walks it. */
const thinned = (cells: readonly Cell[]) => cells.filter((_, i) => i % 5 === 2)

describe('the 95 % band of a paddle holds the truth', () => {
  it.each(thinned(differing))(
    'in 94 to 97 % where $hits hits differ by $between rpm, uncertainties uneven by $uneven',
    cell => {
      const percent = bandCoverage(cell)
      expect(percent).toBeGreaterThanOrEqual(94)
      expect(percent).toBeLessThanOrEqual(97)
    },
  )

  it.each(sharing.filter(cell => cell.hits !== 3))(
    'in 94 to 98.5 % where the camera’s error is as large as the rest, $hits hits',
    cell => {
      const percent = bandCoverage(cell)
      expect(percent).toBeGreaterThanOrEqual(94)
      expect(percent).toBeLessThanOrEqual(98.5)
    },
  )

  it.each(thinned(hardlyDiffering))(
    'in 95 to 99.5 % where $hits hits hardly differ ($between rpm, uneven by $uneven)',
    cell => {
      const percent = bandCoverage(cell)
      expect(percent).toBeGreaterThanOrEqual(95)
      expect(percent).toBeLessThanOrEqual(99.5)
    },
  )
})
