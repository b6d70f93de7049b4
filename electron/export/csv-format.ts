import { guardCell, unguardCell } from './csv-cell.ts'
import { newSheet, parseSheet, type Sheet, writeSheet } from './csv-sheet.ts'
import { isDecimalComma, numberOfText } from './number-text.ts'
import type { SheetFormat } from './sheet.ts'

const utf8 = new TextEncoder()

/** A CSV file: one table, every cell text. Delimiter, line ends, mark and the way decimals are written stay. */
export const csvFormat: SheetFormat = {
  kind: 'csv',
  fresh: header => utf8.encode(writeSheet(newSheet(header))),
  tables: bytes => {
    const { header, rows } = parseSheet(bytes)
    return [
      {
        table: '',
        grid: {
          header: header.map(unguardCell),
          rows: rows.map(cells =>
            cells.map(cell => ({
              value: cell === '' ? null : unguardCell(cell),
              formula: /^[=@]/.test(cell),
            })),
          ),
          numbers: rows.map((_, i) => i + 2),
        },
      },
    ]
  },
  edited: (bytes, _table, edits) => {
    const sheet = parseSheet(bytes)
    const decimalComma = hasDecimalCommas(sheet)
    for (const { row, column, value } of edits) {
      sheet.rows[row] ??= sheet.header.map(() => '')
      const cells = sheet.rows[row]
      while (cells.length <= column) cells.push('')
      cells[column] =
        typeof value === 'number'
          ? String(value).replace('.', decimalComma ? ',' : '.')
          : guardCell(value ?? '')
    }
    return utf8.encode(writeSheet({ ...sheet, endsWithNewline: true }))
  },
}

/** Where decimals are written with a comma and never with a point, so are new ones. */
function hasDecimalCommas({ rows, delimiter }: Sheet): boolean {
  if (delimiter === ',') return false
  const cells = rows.flat()
  return (
    cells.some(isDecimalComma) && !cells.some(cell => /\./.test(cell) && numberOfText(cell, 'point') !== null)
  )
}
