import { cellsOf } from '../../../electron/export/columns.ts'
import { fieldsOf, ownLayout } from '../../../electron/export/layout.ts'
import { type Choose, keyOf } from '../../../electron/export/target.ts'

/** Rows as an export chooses them: new ones added, all others changed. */
export const manyRows =
  (count: number, hits: number, first = 0): Choose =>
  ({ rows }) => {
    const there = new Set(rows.map(keyOf))
    return Array.from({ length: count }, (_, i) => {
      const key = { paddle: `Kite ${first + i}`, setUp: 'stock' }
      return {
        ...key,
        isNew: !there.has(keyOf(key)),
        cells: cellsOf(ratingRow(key, hits, i), fieldsOf(ownLayout)),
      }
    })
  }

const ratingRow = (key: { paddle: string; setUp: string }, hits: number, i: number) => ({
  ...key,
  meanRpm: 2000 + i / 3,
  band: { lowRpm: 1990, highRpm: 2010 + i / 3, level: 0.95 },
  hits,
  flag: 'clear' as const,
  limit: null,
  settledReason: '',
  captureFps: '240',
  methodVersion: '1',
  date: '2026-05-31',
  evidence: 'x'.repeat(64),
})
