import type { TableRow } from '../contract/standings.ts'
import type { Figures } from './figure-text.ts'
import { flagWords } from './flag-shape.ts'
import { ordinal } from './ordinal.ts'
import { nameOf } from './paddle-dots.ts'
import { plainText } from './plain-text.ts'
import { headline } from './report/paddle-report.ts'

/** A paddle's figure to be said in a line. `captureFps` are the rates that its hits were filmed at. */
export type FigureLine = Pick<
  TableRow,
  'paddle' | 'setUp' | 'meanRpm' | 'band' | 'hits' | 'percentile' | 'flag'
> & {
  captureFps: readonly number[]
  /** How many set-ups have a figure. */
  ranked: number
}

/** `2331 ± 9 rpm (95 %, 12 hits, 240 fps), 94th percentile of 61`; a flag that is not clear is said too. */
export function figureLine(one: FigureLine, figures: Figures): string {
  const { meanRpm, captureFps, percentile, ranked, flag } = one
  if (meanRpm === null) return headline(one, figures)
  const rates = captureFps
    .toSorted((a, b) => a - b)
    .map(fps => figures.digits(fps, Number.isInteger(fps) ? 0 : 2))
  return [
    rates.length > 0
      ? headline(one, figures).replace(/\)$/, `, ${rates.join(' and ')} fps)`)
      : headline(one, figures),
    ...(percentile === null ? [] : [`${ordinal(Math.round(percentile))} percentile of ${ranked}`]),
    ...(flag === 'clear' ? [] : [flagWords[flag]]),
  ].join(', ')
}

/** A line a paddle, to be pasted anywhere. */
export const plainLines = (lines: readonly FigureLine[], figures: Figures): string =>
  lines.map(one => `${plainText(nameOf(one))}: ${figureLine(one, figures)}\n`).join('')

/** A list for Markdown (CommonMark, 2.4): what could be markup in a name stands behind a backslash. */
export const markdownLines = (lines: readonly FigureLine[], figures: Figures): string =>
  lines
    .map(one => {
      const name = plainText(nameOf(one)).replace(/[!-/:-@[-`{-~]/g, mark => `\\${mark}`)
      return `- **${name}**: ${figureLine(one, figures)}\n`
    })
    .join('')
