import type { Cell } from '../../core/contract/exchange.ts'

/** What a column keeps of a number. */
export type NumberKept = { kind: 'all' } | { kind: 'single' } | { kind: 'decimals'; decimals: number }

/** The value as the column will hold it, so that what was written is known again. */
export function fitNumber(kept: NumberKept, value: Cell): Cell {
  if (typeof value !== 'number') return value
  if (kept.kind === 'single') return Math.fround(value)
  return kept.kind === 'all' ? value : Number(value.toFixed(kept.decimals))
}
