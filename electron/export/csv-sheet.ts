import Papa from 'papaparse'

/** A CSV file as it lies there: its cells, and how it was written, so that it can be written alike. */
export type Sheet = {
  header: string[]
  rows: string[][]
  delimiter: string
  newline: string
  byteOrderMark: boolean
  endsWithNewline: boolean
}

/** A new sheet as RFC 4180 has it: commas, CRLF, the last line ended. */
export const newSheet = (header: string[]): Sheet => ({
  header,
  rows: [],
  delimiter: ',',
  newline: '\r\n',
  byteOrderMark: false,
  endsWithNewline: true,
})

/** @throws Error with what is wrong, for text that is no CSV */
export function parseSheet(bytes: Uint8Array): Sheet {
  const text = decode(bytes)
  if (text.includes('\0')) throw new Error('it is not text')
  const body = text.startsWith('\ufeff') ? text.slice(1) : text
  const { data, errors, meta } = Papa.parse<string[]>(body, { delimiter: delimiterOf(body) })
  const fault = errors[0]
  if (fault) throw new Error(`line ${(fault.row ?? 0) + 1} is not CSV (${fault.message})`)
  const endsWithNewline = /[\r\n]$/.test(body)
  const [header = [], ...rows] = endsWithNewline ? data.slice(0, -1) : data
  return {
    header,
    rows,
    delimiter: meta.delimiter,
    newline: /[\r\n]/.test(body) ? meta.linebreak : '\r\n',
    byteOrderMark: body !== text,
    endsWithNewline,
  }
}

/** The one that splits the first line into most cells: further down a comma may be a decimal one. */
function delimiterOf(body: string): string {
  const cells = (delimiter: string) =>
    Papa.parse<string[]>(body, { delimiter, preview: 1 }).data[0]?.length ?? 0
  return [',', ';', '\t'].toSorted((a, b) => cells(b) - cells(a))[0]!
}

function decode(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    throw new Error('it is not UTF-8 text')
  }
}

export function writeSheet({
  header,
  rows,
  delimiter,
  newline,
  byteOrderMark,
  endsWithNewline,
}: Sheet): string {
  const body = Papa.unparse([header, ...rows], { delimiter, newline })
  return `${byteOrderMark ? '\ufeff' : ''}${body}${endsWithNewline ? newline : ''}`
}
