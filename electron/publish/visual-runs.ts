import bidiFactory from 'bidi-js'
import { plainText } from '../../core/picture/plain-text.ts'

/** The names by which a PDF knows its fonts, in the order of `fontFiles`. */
export const pdfFonts = ['text', 'bold', 'hebrew', 'arabic', 'emoji'] as const
export type PdfFont = (typeof pdfFonts)[number]
/** Letters of one font and direction, in the order in which they are read. */
export type Run = { text: string; font: PdfFont }

const scripts: [RegExp, PdfFont][] = [
  [/[\u0590-\u05ff\ufb1d-\ufb4f]/, 'hebrew'],
  [/[\u0600-\u06ff\u0750-\u08ff\ufb50-\ufdff\ufe70-\ufefe]/, 'arabic'],
  [/[\u2190-\u21ff\u2600-\u27bf\u2b00-\u2bff\u{1f000}-\u{1faff}]|\u200d|\ufe0f/u, 'emoji'],
]
const bidi = bidiFactory()
const neutral = '\u2600'
const segmenter = new Intl.Segmenter('en', { granularity: 'grapheme' })

type Letter = { text: string; level: number; font: PdfFont }

/**
 * A line cut into runs of one font each, from left to right as they stand on the page: the Unicode
 * bidirectional algorithm (UAX #9), the line as a whole read from the left. Letters of scripts from the right
 * keep the order in which they are read: the font lays them out.
 */
export function visualRuns(line: string, bold: boolean | undefined): Run[] {
  const runs: (Run & { isFromRight: boolean })[] = []
  for (const { text, level, font } of reordered(lettersOf(plainText(line), bold ? 'bold' : 'text'))) {
    const isFromRight = level % 2 === 1 && (font === 'hebrew' || font === 'arabic')
    const last = runs.at(-1)
    if (last?.font !== font || last.isFromRight !== isFromRight) runs.push({ text, font, isFromRight })
    else last.text = isFromRight ? text + last.text : last.text + text
  }
  return runs.map(({ text, font }) => ({ text, font }))
}

function lettersOf(line: string, usual: PdfFont): Letter[] {
  // the library takes the halves of a surrogate pair for letters from the left
  const judged = line.replace(/[\ud800-\udbff][\udc00-\udfff]/g, neutral + neutral)
  const { levels } = bidi.getEmbeddingLevels(judged, 'ltr')
  const letters: Letter[] = []
  for (const { segment, index } of segmenter.segment(line)) {
    const level = levels[index] ?? 0
    const own = scripts.find(([script]) => script.test(segment))?.[1] ?? usual
    const last = letters.at(-1)
    // a space between two words of a script belongs to it: what stands in one run is shaped as one
    const font = segment === ' ' && last && level % 2 === 1 && level === last.level ? last.font : own
    const text = level % 2 === 1 ? (bidi.getMirroredCharacter(segment) ?? segment) : segment
    letters.push({ text: text.replace(/\u200e/g, ''), level, font })
  }
  return letters.filter(({ text }) => text !== '')
}

/** From the highest level down, what stands at it or above is turned round (UAX #9, L2). */
function reordered(letters: readonly Letter[]): Letter[] {
  const order = [...letters]
  for (let level = Math.max(0, ...letters.map(one => one.level)); level > 0; level--)
    for (let from = 0; from < order.length; from++) {
      let to = from
      while (to < order.length && order[to]!.level >= level) to++
      order.splice(from, to - from, ...order.slice(from, to).reverse())
      from = Math.max(from, to - 1)
    }
  return order
}
