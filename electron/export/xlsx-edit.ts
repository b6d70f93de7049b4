import type { Cell } from '../../core/contract/exchange.ts'
import { cellName } from './sheet.ts'
import type { ScannedRow, ScannedSheet } from './xlsx-scan.ts'
import { escapedText } from './xlsx-text.ts'

type Written = { row: number; column: number; value: Cell }
type Splice = { start: number; end: number; text: string }

/**
 * The sheet's XML with these cells written, everything between them as it was. A written cell keeps its
 * style; a new one takes that of the last row's cell above it. `day` turns a day into the number that a
 * date cell holds.
 */
export function editSheet(
  xml: string,
  sheet: ScannedSheet,
  written: readonly Written[],
  last: ScannedRow,
  day: (style: string | undefined, value: Cell) => number | null,
): string {
  const styles = new Map(last.cells.map(({ column, style }) => [column, style]))
  const p = sheet.prefix
  const cellXml = (row: number, column: number, value: Cell, style = styles.get(column)) => {
    const attributes = `r="${cellName(column, row)}"${style === undefined ? '' : ` s="${style}"`}`
    const number = typeof value === 'number' ? value : day(style, value)
    if (number !== null) return `<${p}c ${attributes}><${p}v>${number}</${p}v></${p}c>`
    if (value === null || value === '') return `<${p}c ${attributes}/>`
    return `<${p}c ${attributes} t="inlineStr"><${p}is><${p}t xml:space="preserve">${escapedText(String(value))}</${p}t></${p}is></${p}c>`
  }
  const byRow = new Map<number, Written[]>()
  for (const one of written) byRow.set(one.row, [...(byRow.get(one.row) ?? []), one])
  const there = new Map(sheet.rows.map(row => [row.number, row]))
  const splices: Splice[] = []
  const fresh: { number: number; text: string }[] = []
  for (const [number, cells] of byRow) {
    const row = there.get(number)
    const inOrder = cells.toSorted((a, b) => a.column - b.column)
    const all = inOrder.map(({ column, value }) => cellXml(number, column, value)).join('')
    if (!row) fresh.push({ number, text: `<${p}row r="${number}">${all}</${p}row>` })
    else if (row.closed) {
      const open = xml.slice(row.start, row.end).replace(/\s*\/>$/, '>')
      splices.push({ start: row.start, end: row.end, text: `${open}${all}</${p}row>` })
    } else
      for (const { column, value } of inOrder) {
        const old = row.cells.find(cell => cell.column === column)
        const after = row.cells.find(cell => cell.column > column)
        if (old)
          splices.push({ start: old.start, end: old.end, text: cellXml(number, column, value, old.style) })
        else {
          const at = after?.start ?? row.inner
          splices.push({ start: at, end: at, text: cellXml(number, column, value) })
        }
      }
  }
  for (const { number, text } of fresh.toSorted((a, b) => a.number - b.number)) {
    const at = sheet.rows.find(row => row.number > number)?.start ?? sheet.data.inner
    splices.push({ start: at, end: at, text })
  }
  const edited = spliced(xml, splices, sheet)
  return widened(
    edited,
    Math.max(...written.map(({ row }) => row)),
    Math.max(...written.map(({ column }) => column)),
  )
}

function spliced(xml: string, splices: readonly Splice[], { data, prefix }: ScannedSheet): string {
  if (data.closed) {
    const texts = splices.map(({ text }) => text).join('')
    return `${xml.slice(0, data.start)}<${prefix}sheetData>${texts}</${prefix}sheetData>${xml.slice(data.end)}`
  }
  let at = 0
  let edited = ''
  // Equal places keep the order in which they were asked for.
  for (const { start, end, text } of splices.toSorted((a, b) => a.start - b.start)) {
    edited += xml.slice(at, start) + text
    at = end
  }
  return edited + xml.slice(at)
}

/** The sheet's stated extent, as far as the written cells reach beyond it. */
function widened(xml: string, row: number, column: number): string {
  return xml.replace(
    /(<(?:\w+:)?dimension\s[^>]*?ref=")([A-Z]+)(\d+)(?::([A-Z]+)(\d+))?"/,
    (_whole, before: string, left: string, top: string, right = left, bottom = top) => {
      const corner = cellName(column, row)
      const letters = corner.replace(/\d/g, '')
      const isFurther = letters.length > right.length || (letters.length === right.length && letters > right)
      return `${before}${left}${top}:${isFurther ? letters : right}${Math.max(Number(bottom), row)}"`
    },
  )
}
