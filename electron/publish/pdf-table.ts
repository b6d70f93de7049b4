import type { Page } from './pdf-of.ts'
import { drawLine, linesOf, type TextStyle, widthOf } from './pdf-text.ts'

type Table = { head: string[] | null; rows: string[][]; right: number[]; quietFirst: boolean }

const style: TextStyle = { sizePt: 9 }
const head: TextStyle = { sizePt: 8, colour: '#5a6268' }
const gap = 10
const leading = 12

/** A table that turns the page between rows and says its head again there. Long cells take several lines. */
export function drawTable(sheet: Page, table: Table, left: number, width: number): void {
  const widths = columnWidths(sheet, table, width)
  const drawHead = () => {
    if (table.head) drawRow(sheet, table, table.head, widths, left, width, head)
  }
  sheet.y += 4
  sheet.room(60)
  drawHead()
  for (const row of table.rows) {
    const before = sheet.y
    sheet.room(heightOf(sheet, row, widths, style))
    if (sheet.y < before) drawHead()
    drawRow(sheet, table, row, widths, left, width, style)
  }
  sheet.y += 8
}

/** As wide as their cells where there is room; else the wide ones give way, none below what a figure needs. */
function columnWidths({ pdf }: Page, { head: names, rows }: Table, width: number): number[] {
  const count = Math.max(...rows.map(row => row.length), names?.length ?? 0)
  const wanted = Array.from({ length: count }, (_, i) =>
    Math.max(
      ...rows.map(row => widthOf(pdf, row[i] ?? '', style)),
      Math.min(70, widthOf(pdf, names?.[i] ?? '', head)),
      20,
    ),
  )
  const room = width - gap * (count - 1)
  const narrow = wanted.map(each => Math.min(each, room / count))
  const spare = room - narrow.reduce((sum, each) => sum + each, 0)
  const more = wanted.map((each, i) => each - narrow[i]!)
  const asked = more.reduce((sum, each) => sum + each, 0)
  if (asked > 0) return narrow.map((each, i) => each + more[i]! * Math.min(1, spare / asked))
  return narrow.map((each, i) => (i === count - 1 && !names ? each + spare : each))
}

const heightOf = (
  { pdf }: Page,
  row: readonly string[],
  widths: readonly number[],
  text: TextStyle,
): number => 8 + leading * Math.max(1, ...row.map((cell, i) => linesOf(pdf, cell, widths[i]!, text).length))

function drawRow(
  sheet: Page,
  { right, quietFirst }: Table,
  row: readonly string[],
  widths: readonly number[],
  left: number,
  width: number,
  text: TextStyle,
): void {
  const { pdf } = sheet
  const height = heightOf(sheet, row, widths, text)
  let x = left
  for (const [i, cell] of row.entries()) {
    const own = quietFirst && i === 0 ? { ...text, colour: head.colour } : text
    for (const [k, line] of linesOf(pdf, cell, widths[i]!, own).entries()) {
      const inset = right.includes(i) ? widths[i]! - widthOf(pdf, line, own) : 0
      drawLine(pdf, line, x + inset, sheet.y + 4 + k * leading, own)
    }
    x += widths[i]! + gap
  }
  sheet.y += height
  pdf
    .lineWidth(0.5)
    .moveTo(left, sheet.y)
    .lineTo(left + width, sheet.y)
    .stroke('#d5dadc')
}
