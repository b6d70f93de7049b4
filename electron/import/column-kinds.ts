import type { Cell, ImportedColumn } from '../../core/contract/exchange.ts'
import { type DecimalMark, isDecimalComma, isUnsureNumber, numberOfText } from '../export/number-text.ts'

/** How one column is read. `mark` is null where nothing says how its decimals are written. */
export type ColumnReader = ImportedColumn & { place: number; mark: DecimalMark | null }

/** The columns of a table as values of a paddle: by name and unit, numbers or text. */
export function columnReaders(
  header: readonly string[],
  places: readonly number[],
  rows: readonly (readonly { value: Cell }[])[],
): ColumnReader[] {
  const texts = (place: number) =>
    rows.flatMap(row => (typeof row[place]?.value === 'string' ? [row[place].value] : []))
  const marks = new Map(places.map(place => [place, markOf(texts(place))]))
  const known = new Set([...marks.values()].filter(mark => mark !== null))
  // Where columns differ, one that does not say is left to its cells.
  const tableMark = known.size === 1 ? [...known][0]! : null
  return places.map(place => {
    const own = marks.get(place) ?? tableMark
    const mark = own === 'mixed' ? null : own
    const cells = rows.map(row => row[place]?.value ?? null).filter(value => value !== null && value !== '')
    const numbers = cells.filter(value => numberIn(value, mark) !== null)
    const kind = cells.length > 0 && 2 * numbers.length >= cells.length ? 'number' : 'text'
    return { column: header[place]!, ...nameAndUnit(header[place]!), kind, place, mark }
  })
}

/** The number of a cell, if it can be one. */
export function numberIn(value: Cell, mark: DecimalMark | null): number | null {
  if (typeof value !== 'string') return value
  return numberOfText(value, mark ?? 'point') ?? (mark === null ? numberOfText(value, 'comma') : null)
}

/** Without a word from its neighbours, "1,500" stays unread. */
export const isUnsure = (value: Cell, mark: DecimalMark | null): boolean =>
  typeof value === 'string' && mark === null && value.includes(',') && isUnsureNumber(value)

const isDecimalPoint = (text: string) =>
  /\.\d/.test(text) && !isUnsureNumber(text) && numberOfText(text, 'point') !== null

function markOf(texts: readonly string[]): DecimalMark | 'mixed' | null {
  const [comma, point] = [texts.some(isDecimalComma), texts.some(isDecimalPoint)]
  if (comma && point) return 'mixed'
  return comma ? 'comma' : point ? 'point' : null
}

/** "Swing weight (kg·cm²)" is the swing weight in kg·cm². */
function nameAndUnit(header: string): { name: string; unit: string } {
  const [, name, round, square] =
    /^(.*\S)\s*(?:\(([^()]{1,30})\)|\[([^[\]]{1,30})\])$/.exec(header.trim()) ?? []
  return name === undefined ? { name: header.trim(), unit: '' } : { name, unit: round ?? square ?? '' }
}
