import type { Cell } from '../../core/contract/exchange.ts'
import type { SheetFormat } from './sheet.ts'

type Entry = Record<string, unknown>
const utf8 = new TextEncoder()

/** A JSON file: one list of objects, a property a column. What a value of the person's is, it stays. */
export const jsonFormat: SheetFormat = {
  kind: 'json',
  fresh: () => utf8.encode('[]\n'),
  tables: bytes => {
    const entries = entriesOf(bytes)
    const header = [...new Set(entries.flatMap(entry => Object.keys(entry)))]
    if (header.length === 0) return []
    return [
      {
        table: '',
        grid: {
          header,
          rows: entries.map(entry => header.map(name => ({ value: cellOf(entry[name]), formula: false }))),
          numbers: entries.map((_, i) => i + 1),
        },
      },
    ]
  },
  edited: (bytes, _table, edits, header) => {
    const text = new TextDecoder().decode(bytes)
    const entries = entriesOf(bytes)
    for (const { row, column, value } of edits) {
      entries[row] ??= {}
      Object.defineProperty(entries[row], header[column]!, {
        value,
        enumerable: true,
        writable: true,
        configurable: true,
      })
    }
    const indent = /^\[\s*\n([ \t]+)\{/.exec(text)?.[1] ?? '  '
    return utf8.encode(`${JSON.stringify(entries, null, indent)}\n`)
  },
}

function entriesOf(bytes: Uint8Array): Entry[] {
  let value: unknown
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes))
  } catch {
    throw new Error('it is not JSON')
  }
  if (
    !Array.isArray(value) ||
    value.some(entry => typeof entry !== 'object' || entry === null || Array.isArray(entry))
  )
    throw new Error('it is not a list of objects, one a row')
  return value as Entry[]
}

function cellOf(value: unknown): Cell {
  if (value === undefined || value === null) return null
  return typeof value === 'number' || typeof value === 'string' ? value : JSON.stringify(value)
}
