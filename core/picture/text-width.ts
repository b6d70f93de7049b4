import { plainText } from './plain-text.ts'

/**
 * How wide letters are, in parts of the font size: on the wide side of Atkinson Hyperlegible Next, so that
 * what is said to fit does. What is not listed is as wide as a lower-case letter.
 */
const widths: readonly (readonly [RegExp, number])[] = [
  [/^[\p{M}\u200e]/u, 0],
  [/^[ijl.,:;'|!\u00b7 \u00a0\u202f]/u, 0.3],
  [/^[frt()\-/[\]{}"]/u, 0.42],
  [/^[mwMWQ@%&]/u, 0.96],
  [/^[–\u2212±×+=<>~]/u, 0.64],
  [/^[A-Z\u00c0-\u00de]/u, 0.74],
  [/^\p{Extended_Pictographic}/u, 1.4],
  [/^[\u2e80-\uffff]/u, 1.1],
  [/^[\u{10000}-\u{10ffff}]/u, 1.4],
  [/^[\u0590-\u08ff]/u, 0.8],
]
const usual = 0.62

const graphemes = (text: string): string[] =>
  [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(text)].map(({ segment }) => segment)

const widthOf = (grapheme: string): number => widths.find(([letters]) => letters.test(grapheme))?.[1] ?? usual

/** An upper limit of a text's width, px. */
export const textWidth = (text: string, sizePx: number): number =>
  sizePx * graphemes(plainText(text)).reduce((sum, letter) => sum + widthOf(letter), 0)

/** A text as it is where there is room for it, else its beginning and an ellipsis. Letters are never cut. */
export function fitted(text: string, widthPx: number, sizePx: number): string {
  const plain = plainText(text)
  if (textWidth(plain, sizePx) <= widthPx) return plain
  let room = widthPx / sizePx - 1
  let kept = ''
  for (const letter of graphemes(plain)) {
    room -= widthOf(letter)
    if (room < 0) break
    kept += letter
  }
  return `${kept.trimEnd()}…`
}
