import { posix } from 'node:path'
import { strFromU8 } from 'fflate'
import sax from 'sax'
import type { SheetCell } from './sheet.ts'
import type { ScannedCell } from './xlsx-scan.ts'
import { unescapedText } from './xlsx-text.ts'
import type { Files } from './zip.ts'

/** A workbook's parts: its sheets in order, its shared texts, and which styles show a number as a date. */
export type Workbook = {
  files: Files
  path: string
  sheets: { name: string; path: string }[]
  texts: string[]
  isDate: (style: string | undefined) => boolean
  from1904: boolean
}

type Tag = { name: string; attributes: Record<string, string> }

/** Calls for each element, by its local name; `text` holds the text inside when it closes. */
function walk(xml: string, open: (tag: Tag) => void, close: (name: string, text: string) => void = () => {}) {
  const parser = sax.parser(true, {})
  const local = (name: string) => name.slice(name.indexOf(':') + 1)
  let text = ''
  parser.onerror = error => {
    throw new Error(`a part of it is not XML (${error.message.split('\n')[0]})`)
  }
  parser.onopentag = ({ name, attributes }) => {
    text = ''
    open({ name: local(name), attributes: attributes as Record<string, string> })
  }
  parser.ontext = more => {
    text += more
  }
  parser.oncdata = parser.ontext
  parser.onclosetag = name => close(local(name), text)
  parser.write(xml).close()
}

/** @throws Error for a zip that is no workbook */
export function openWorkbook(files: Files): Workbook {
  const part = (path: string) => (files[path] ? strFromU8(files[path]) : '')
  const relations = (path: string) => {
    const found = new Map<string, { type: string; target: string }>()
    const folder = posix.dirname(path)
    const xml = part(posix.join(folder, '_rels', `${posix.basename(path)}.rels`))
    if (xml !== '')
      walk(xml, ({ name, attributes: a }) => {
        if (name !== 'Relationship' || a.TargetMode === 'External') return
        const target = a.Target ?? ''
        found.set(a.Id ?? '', {
          type: (a.Type ?? '').split('/').at(-1)!,
          target: target.startsWith('/') ? target.slice(1) : posix.join(folder, target),
        })
      })
    return found
  }
  const ofType = (path: string, type: string) =>
    [...relations(path).values()].find(one => one.type === type)?.target
  const path = ofType('', 'officeDocument') ?? 'xl/workbook.xml'
  if (!files[path]) throw new Error('it is not an Excel workbook')
  const book = { sheets: [] as Workbook['sheets'], from1904: false }
  const parts = relations(path)
  walk(part(path), ({ name, attributes: a }) => {
    if (name === 'workbookPr') book.from1904 = a.date1904 === '1' || a.date1904 === 'true'
    if (name !== 'sheet') return
    const id = Object.entries(a).find(([key]) => key.endsWith(':id'))?.[1] ?? ''
    const sheet = parts.get(id)
    if (sheet?.type === 'worksheet' && files[sheet.target])
      book.sheets.push({ name: a.name ?? '', path: sheet.target })
  })
  return {
    ...book,
    files,
    path,
    texts: textsIn(part(ofType(path, 'sharedStrings') ?? '')),
    isDate: datesIn(part(ofType(path, 'styles') ?? '')),
  }
}

function textsIn(xml: string): string[] {
  const texts: string[] = []
  let phonetic = false
  let one = ''
  if (xml !== '')
    walk(
      xml,
      ({ name }) => {
        if (name === 'si') one = ''
        if (name === 'rPh') phonetic = true
      },
      (name, text) => {
        if (name === 't' && !phonetic) one += text
        if (name === 'rPh') phonetic = false
        if (name === 'si') texts.push(unescapedText(one))
      },
    )
  return texts
}

/** Formats 14 to 22 and 45 to 47 are dates and times, and own ones with day, month or year in them (ECMA-376, 18.8.30). */
function datesIn(xml: string): Workbook['isDate'] {
  const own = new Map<string, string>()
  const styles: boolean[] = []
  let inCells = false
  if (xml !== '')
    walk(
      xml,
      ({ name, attributes: a }) => {
        if (name === 'numFmt') own.set(a.numFmtId ?? '', a.formatCode ?? '')
        if (name === 'cellXfs') inCells = true
        if (name !== 'xf' || !inCells) return
        const id = a.numFmtId ?? '0'
        const code = (own.get(id) ?? '').replace(/"[^"]*"|\[[^\]]*\]|\\./g, '')
        styles.push(own.has(id) ? /[dy]/i.test(code) : /^(1[4-9]|2[0-2]|4[5-7])$/.test(id))
      },
      name => {
        if (name === 'cellXfs') inCells = false
      },
    )
  return style => styles[Number(style ?? 0)] ?? false
}

/** What a cell says: a number, a text, a date as 2026-05-31. */
export function cellReader({ texts, isDate, from1904 }: Workbook): (cell: ScannedCell) => SheetCell {
  return ({ type, value, formula, style }) => {
    const as = (said: SheetCell['value']): SheetCell => ({ value: said, formula })
    if (type === 's') return as(texts[Number(value)] ?? '')
    if (value === '') return as(null)
    if (type === 'b') return as(value === '1' ? 'TRUE' : 'FALSE')
    if (type !== 'n') return as(unescapedText(value))
    const number = Number(value)
    if (!Number.isFinite(number)) return as(value)
    return as(isDate(style) && number >= 1 ? dayOfNumber(number, from1904) : number)
  }
}

const dayMilliseconds = 86_400_000
/** Day 0; 1900 counts a 29 February that never was, so days from March on are one more. */
const dayZero = (from1904: boolean) => (from1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, 30))

const dayOfNumber = (number: number, from1904: boolean): string => {
  const moment = new Date(dayZero(from1904) + Math.round(number * 86_400) * 1000).toISOString()
  return Number.isInteger(number) ? moment.slice(0, 10) : moment.slice(0, 19).replace('T', ' ')
}

/** The number that a date cell holds for 2026-05-31; null for what is no day. */
export function dayNumberOf(text: string, from1904: boolean): number | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return null
  const days = (Date.parse(`${text}T00:00:00Z`) - dayZero(from1904)) / dayMilliseconds
  return Number.isFinite(days) ? days : null
}
