import type { Cell, UnclearCell } from '../../core/contract/exchange.ts'
import type { MetricValue } from '../../core/contract/metrics.ts'
import type { SheetCell } from '../export/sheet.ts'
import { type ColumnReader, isUnsure, numberIn } from './column-kinds.ts'

/** What a row's cells say of a paddle; what was not understood is told and left out. */
export function readCells(
  row: readonly SheetCell[],
  number: number,
  columns: readonly ColumnReader[],
): { values: (MetricValue & { column: string })[]; unclear: UnclearCell[] } {
  const values: (MetricValue & { column: string })[] = []
  const unclear: UnclearCell[] = []
  for (const { column, name, unit, kind, place, mark } of columns) {
    const cell = row[place]
    if (!cell || cell.value === null || cell.value === '') {
      if (cell?.formula)
        unclear.push({ row: number, column, text: '', what: 'a formula without a stored result' })
      continue
    }
    const what = whyUnclear(cell, kind, mark)
    if (what !== null) unclear.push({ row: number, column, text: String(cell.value), what })
    else {
      const text = String(cell.value).trim()
      if (text !== '')
        values.push({ column, name, unit, value: kind === 'number' ? numberIn(cell.value, mark)! : text })
    }
  }
  return { values, unclear }
}

function whyUnclear(
  { value, formula }: SheetCell,
  kind: ColumnReader['kind'],
  mark: ColumnReader['mark'],
): string | null {
  if (isFormulaText({ value, formula })) return 'a formula, not its result'
  if (typeof value === 'string' && value.includes('\0')) return 'it holds a NUL'
  if (kind === 'text') return null
  if (isUnsure(value, mark)) return 'thousands or decimals: nothing else in the table says which'
  return numberIn(value, mark) === null ? 'text in a column of numbers' : null
}

/** In a sheet of plain text a formula stands as it was written. */
export const isFormulaText = ({ value, formula }: { value: Cell; formula: boolean }): boolean =>
  formula && typeof value === 'string' && /^[=@]/.test(value)
