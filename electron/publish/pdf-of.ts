import PDFDocument from 'pdfkit'
import type { Block, Report } from '../../core/picture/report/blocks.ts'
import { drawScene } from './pdf-scene.ts'
import { drawTable } from './pdf-table.ts'
import { drawLine, linesOf, registerFonts, type TextStyle } from './pdf-text.ts'

/** A4 in points, and what is left free around the page. */
const page = { width: 595.28, height: 841.89 }
const edge = 52
const column = page.width - 2 * edge
const quiet = '#5a6268'

/** Where the pen stands on the page; `room` turns the page when that much does not fit below. */
export type Page = { pdf: PDFKit.PDFDocument; y: number; room(points: number): void }

/** A report as PDF with its fonts inside. The same report gives the same bytes: its dates are the evidence's. */
export async function pdfOf(report: Report): Promise<Buffer> {
  const at = new Date(`${report.day}T12:00:00Z`)
  const pdf = new PDFDocument({
    size: 'A4',
    margin: 0,
    bufferPages: true,
    lang: 'en',
    displayTitle: true,
    info: { Title: report.title, Creator: 'Whorl', Producer: 'Whorl', CreationDate: at, ModDate: at },
  })
  const pieces: Buffer[] = []
  const ended = new Promise<void>((resolve, reject) => pdf.on('end', resolve).on('error', reject))
  pdf.on('data', (piece: Buffer) => pieces.push(piece))
  registerFonts(pdf)
  const sheet: Page = {
    pdf,
    y: edge,
    room(points) {
      if (sheet.y + points <= page.height - edge - 16) return
      pdf.addPage()
      sheet.y = edge
    },
  }
  drawText(sheet, report.title, { sizePt: 20, bold: true }, 1.25)
  drawText(sheet, report.subtitle, { sizePt: 10, colour: quiet })
  sheet.y += 8
  report.blocks.forEach((block, i) => {
    drawBlock(sheet, block, report.blocks[i + 1])
  })
  numberPages(pdf, report.title)
  pdf.end()
  await ended
  return Buffer.concat(pieces)
}

function drawBlock(sheet: Page, block: Block, next: Block | undefined): void {
  switch (block.kind) {
    case 'heading':
      sheet.room(34 + beginningOf(next))
      sheet.y += 12
      drawText(sheet, block.text, { sizePt: 13, bold: true })
      sheet.y += 3
      return
    case 'paragraph':
      drawText(sheet, block.text, block.quiet ? { sizePt: 9, colour: quiet } : { sizePt: 10.5 })
      sheet.y += 6
      return
    case 'list':
      for (const item of block.items) {
        roomForText(sheet, linesOf(sheet.pdf, item, column - 12, { sizePt: 10 }), 14)
        drawLine(sheet.pdf, '–', edge, sheet.y, { sizePt: 10 })
        drawText(sheet, item, { sizePt: 10 }, 1.4, 12)
        sheet.y += 3
      }
      return
    case 'facts':
      drawTable(sheet, { rows: block.rows, right: [], head: null, quietFirst: true }, edge, column)
      return
    case 'table':
      drawTable(sheet, { ...block, quietFirst: false }, edge, column)
      return
    case 'picture': {
      const scale = column / block.scene.widthPx
      sheet.room(pictureRoom(block))
      drawScene(sheet.pdf, block.scene, edge, sheet.y + 6, scale)
      sheet.y += pictureRoom(block)
    }
  }
}

/** What must stand below a heading on its page: a picture whole, a table's head and some rows, a few lines. */
const beginningOf = (next: Block | undefined): number => (next?.kind === 'picture' ? pictureRoom(next) : 110)

const pictureRoom = ({ scene }: Extract<Block, { kind: 'picture' }>): number =>
  (scene.heightPx * column) / scene.widthPx + 12

/** Text of a few lines stays together: no line of it stands alone at the foot or the top of a page. */
const fewLines = 8
const roomForText = (sheet: Page, { length }: string[], linePt: number): void =>
  sheet.room((length <= fewLines ? length : 1) * linePt)

function drawText(sheet: Page, text: string, style: TextStyle, leading = 1.4, indent = 0): void {
  const lines = linesOf(sheet.pdf, text, column - indent, style)
  roomForText(sheet, lines, style.sizePt * leading)
  for (const line of lines) {
    sheet.room(style.sizePt * leading)
    drawLine(sheet.pdf, line, edge + indent, sheet.y, style)
    sheet.y += style.sizePt * leading
  }
}

function numberPages(pdf: PDFKit.PDFDocument, title: string): void {
  const { count } = pdf.bufferedPageRange()
  const style = { sizePt: 8, colour: quiet }
  for (let i = 0; i < count; i++) {
    pdf.switchToPage(i)
    const [line = ''] = linesOf(pdf, title, column - 80, style)
    drawLine(pdf, line, edge, page.height - edge + 8, style)
    drawLine(pdf, `${i + 1} of ${count}`, page.width - edge - 30, page.height - edge + 8, style)
  }
}
