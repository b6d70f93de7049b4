import { plainText } from '../../core/picture/plain-text.ts'
import { fontFiles } from './fonts.ts'
import { pdfFonts, visualRuns } from './visual-runs.ts'

/** The part of pdfkit that text needs. */
export type TextPen = Pick<
  PDFKit.PDFDocument,
  'font' | 'fontSize' | 'widthOfString' | 'text' | 'fillColor' | 'registerFont'
>
export type TextStyle = { sizePt: number; bold?: boolean; colour?: string }
/** Puts the fonts in by name; what is not used of them does not go into the file. */
export function registerFonts(pen: TextPen): void {
  for (const [i, name] of pdfFonts.entries()) pen.registerFont(name, fontFiles[i]!)
}

/** Without a list of features the words of a run are laid out one by one, from the left, whatever their script. */
const whole = { features: [] }

export function widthOf(pen: TextPen, line: string, { sizePt, bold }: TextStyle): number {
  return visualRuns(line, bold).reduce(
    (sum, { text, font }) => sum + pen.font(font).fontSize(sizePt).widthOfString(text, whole),
    0,
  )
}

/** How far the letters' top lies above the baseline, in parts of their size: every font of a line stands on one. */
export const ascent = 0.95

/** Draws one line, its top at y. */
export function drawLine(pen: TextPen, line: string, x: number, y: number, style: TextStyle): void {
  let at = x
  for (const { text, font } of visualRuns(line, style.bold)) {
    pen
      .font(font)
      .fontSize(style.sizePt)
      .fillColor(style.colour ?? '#1b2328')
    pen.text(text, at, y + ascent * style.sizePt, { ...whole, lineBreak: false, baseline: 'alphabetic' })
    at += pen.widthOfString(text, whole)
  }
}

/** Cuts text into lines of at most this width; a word that is wider is cut between letters. */
export function linesOf(pen: TextPen, text: string, widthPt: number, style: TextStyle): string[] {
  const lines: string[] = []
  let line = ''
  for (const word of plainText(text).split(/(?<= )/)) {
    if (widthOf(pen, (line + word).trimEnd(), style) <= widthPt) {
      line += word
      continue
    }
    if (line !== '') lines.push(line.trimEnd())
    line = word
    while (widthOf(pen, line.trimEnd(), style) > widthPt) {
      const kept = fittingPart(pen, line, widthPt, style)
      lines.push(kept)
      line = line.slice(kept.length)
    }
  }
  return [...lines, line.trimEnd()]
}

function fittingPart(pen: TextPen, word: string, widthPt: number, style: TextStyle): string {
  let kept = ''
  for (const letter of word) {
    if (kept !== '' && widthOf(pen, kept + letter, style) > widthPt) break
    kept += letter
  }
  return kept
}
