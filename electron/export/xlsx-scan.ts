import sax from 'sax'

/** A cell of a sheet's XML: where it stands in the text, and what is in it. */
export type ScannedCell = {
  column: number
  start: number
  end: number
  style: string | undefined
  type: string
  /** The text of its value, an inline text as it reads; empty for none. */
  value: string
  formula: boolean
}
export type ScannedRow = {
  number: number
  start: number
  /** Where the row's cells end and its closing tag begins; the row's end for `<row/>`. */
  inner: number
  end: number
  closed: boolean
  cells: ScannedCell[]
}
export type ScannedSheet = {
  rows: ScannedRow[]
  /** `x:` where the file gives its elements a prefix. */
  prefix: string
  data: { start: number; inner: number; end: number; closed: boolean }
}

const localName = (name: string) => name.slice(name.indexOf(':') + 1)

/**
 * Finds rows and cells in a worksheet part, by their places in its text. Nothing is resolved: an entity
 * that XML does not have by itself is a fault.
 */
export function scanSheet(xml: string): ScannedSheet {
  const parser = sax.parser(true, { position: true })
  const sheet: ScannedSheet = { rows: [], prefix: '', data: { start: -1, inner: -1, end: -1, closed: false } }
  let row: ScannedRow | null = null
  let cell: ScannedCell | null = null
  let taking = false
  let phonetic = false
  parser.onerror = error => {
    throw new Error(`its sheet is not XML (${error.message.split('\n')[0]})`)
  }
  parser.onopentag = ({ name, attributes, isSelfClosing }) => {
    const local = localName(name)
    const start = parser.startTagPosition - 1
    if (local === 'sheetData') {
      sheet.prefix = name.slice(0, name.length - local.length)
      sheet.data = { start, inner: parser.position, end: parser.position, closed: isSelfClosing }
    } else if (local === 'row' && cell === null) {
      const number = Number(attributes.r ?? (sheet.rows.at(-1)?.number ?? 0) + 1)
      row = { number, start, inner: parser.position, end: parser.position, closed: isSelfClosing, cells: [] }
      sheet.rows.push(row)
    } else if (local === 'c' && row !== null) {
      const column =
        attributes.r === undefined ? (row.cells.at(-1)?.column ?? -1) + 1 : columnOf(String(attributes.r))
      cell = {
        column,
        start,
        end: parser.position,
        style: attributes.s === undefined ? undefined : String(attributes.s),
        type: String(attributes.t ?? 'n'),
        value: '',
        formula: false,
      }
      row.cells.push(cell)
    } else if (cell !== null) {
      if (local === 'f') cell.formula = true
      if (local === 'rPh') phonetic = true
      taking = local === 'v' || (local === 't' && !phonetic)
    }
  }
  const take = (text: string) => {
    if (cell !== null && taking) cell.value += text
  }
  parser.ontext = take
  parser.oncdata = take
  parser.onclosetag = name => {
    const local = localName(name)
    taking = false
    if (local === 'rPh') phonetic = false
    else if (local === 'c' && cell !== null) {
      cell.end = parser.position
      cell = null
    } else if (local === 'row' && row !== null) {
      row.end = parser.position
      row.inner = row.closed ? row.end : parser.startTagPosition - 1
      row = null
    } else if (local === 'sheetData') {
      sheet.data.end = parser.position
      sheet.data.inner = sheet.data.closed ? parser.position : parser.startTagPosition - 1
    }
  }
  parser.write(xml).close()
  if (sheet.data.start < 0) throw new Error('its sheet has no rows part')
  return sheet
}

/** 0 for `A7`, 27 for `AB7`. */
function columnOf(reference: string): number {
  const letters = /^\$?([A-Z]{1,3})/i.exec(reference)?.[1]?.toUpperCase() ?? ''
  return [...letters].reduce((sum, letter) => 26 * sum + letter.charCodeAt(0) - 64, 0) - 1
}
