/** How a table writes decimals: 1500.5 or 1500,5. */
export type DecimalMark = 'point' | 'comma'

const plain: Record<DecimalMark, RegExp> = {
  point: /^[+\-−]?(\d+|\d{1,3}(?:[,'’\u00a0\u202f ]\d{3})+)?(\.\d+)?(e[+-]?\d+)?$/i,
  comma: /^[+\-−]?(\d+|\d{1,3}(?:[.'’\u00a0\u202f ]\d{3})+)?(,\d+)?(e[+-]?\d+)?$/i,
}

/** The number that a text writes, thousands apart or not; null for anything else. */
export function numberOfText(text: string, mark: DecimalMark): number | null {
  const trimmed = text.trim()
  const [, whole, fraction] = plain[mark].exec(trimmed) ?? []
  if (whole === undefined && fraction === undefined) return null
  const value = Number(
    mark === 'comma'
      ? trimmed
          .replace(/[.'’\s]/g, '')
          .replace(',', '.')
          .replace('−', '-')
      : trimmed.replace(/[,'’\s]/g, '').replace('−', '-'),
  )
  return Number.isFinite(value) ? value : null
}

/** "1,500" may be one and a half or one and a half thousand: nobody can tell from the cell alone. */
export const isUnsureNumber = (text: string): boolean => /^[+\-−]?\d{1,3}[.,]\d{3}$/.test(text.trim())

/** A comma that can only be a decimal mark. */
export const isDecimalComma = (text: string): boolean =>
  !isUnsureNumber(text) &&
  text.includes(',') &&
  numberOfText(text, 'comma') !== null &&
  numberOfText(text, 'point') === null
