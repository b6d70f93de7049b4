import { strFromU8, strToU8 } from 'fflate'
import type { Grid, SheetFormat } from './sheet.ts'
import { editSheet } from './xlsx-edit.ts'
import { newWorkbook, withRecalculation } from './xlsx-parts.ts'
import { type ScannedCell, type ScannedRow, scanSheet } from './xlsx-scan.ts'
import { cellReader, dayNumberOf, openWorkbook } from './xlsx-workbook.ts'
import { unzip, zipped } from './zip.ts'

/** An Excel workbook (ECMA-376). Cells are written into the sheet's own XML: what is not written stays byte for byte. */
export const xlsxFormat: SheetFormat = {
  kind: 'xlsx',
  fresh: header => newWorkbook('whorl_spin', header),
  tables: bytes => {
    const book = openWorkbook(unzip(bytes))
    const read = cellReader(book)
    return book.sheets.flatMap(({ name, path }) => {
      const { rows } = scanSheet(strFromU8(book.files[path]!))
      const grid = gridOf(rows, read)
      return grid === null ? [] : [{ table: name, grid }]
    })
  },
  edited: (bytes, table, edits) => {
    const book = openWorkbook(unzip(bytes))
    const { path } = book.sheets.find(({ name }) => name === table)!
    const xml = strFromU8(book.files[path]!)
    const scan = scanSheet(xml)
    const head = headRow(scan.rows, cellReader(book))!
    const below = scan.rows.filter(({ number }) => number > head.number)
    const filled = filledRows(below)
    const last = filled.at(-1) ?? head
    const written = edits.map(({ row, column, value }) => ({
      row: filled[row]?.number ?? last.number + 1 + row - filled.length,
      column,
      value,
    }))
    const dates = (style: string | undefined, value: unknown) =>
      typeof value === 'string' && book.isDate(style) ? dayNumberOf(value, book.from1904) : null
    const files = { ...book.files, [path]: strToU8(editSheet(xml, scan, written, last, dates)) }
    if (book.sheets.some(one => /<(\w+:)?f[\s>/]/.test(strFromU8(book.files[one.path]!))))
      files[book.path] = strToU8(withRecalculation(strFromU8(book.files[book.path]!)))
    return zipped(files)
  },
}

type Read = (cell: ScannedCell) => Grid['rows'][number][number]

const isFilled = ({ cells }: ScannedRow) => cells.some(cell => cell.value !== '' || cell.formula)
const filledRows = (rows: readonly ScannedRow[]) => rows.filter(isFilled)

/** The header: the first row that has two texts beside numbers and gaps, else the first with anything. */
function headRow(rows: readonly ScannedRow[], read: Read): ScannedRow | null {
  const filled = filledRows(rows)
  const texts = ({ cells }: ScannedRow) => cells.filter(cell => typeof read(cell).value === 'string').length
  return filled.slice(0, 20).find(row => texts(row) >= 2) ?? filled[0] ?? null
}

function gridOf(rows: readonly ScannedRow[], read: Read): Grid | null {
  const head = headRow(rows, read)
  if (head === null) return null
  const at = (row: ScannedRow) => {
    const cells: Grid['rows'][number] = []
    for (const cell of row.cells) cells[cell.column] = read(cell)
    return Array.from(cells, cell => cell ?? { value: null, formula: false })
  }
  const below = filledRows(rows).filter(({ number }) => number > head.number)
  return {
    header: at(head).map(({ value }) => String(value ?? '')),
    rows: below.map(at),
    numbers: below.map(({ number }) => number),
  }
}
