/** 1 in = 0.0254 m exactly, 1 ft = 12 in (international yard and pound agreement, 1959). */
const metresIn: Record<string, number> = { '': 1, m: 1, cm: 1e-2, mm: 1e-3, in: 0.0254, ft: 0.3048 }

/**
 * Metres that a person wrote as `74mm`, `2.9in`, `6ft` or `0.074`; null for anything else and for 0 or less.
 *
 * @example metresOfText('74mm') // 0.074
 */
export function metresOfText(text: string): number | null {
  const [, figure, unit = ''] = /^\s*(\d*\.?\d+(?:e[+-]?\d+)?)\s*(mm|cm|m|in|ft|)\s*$/i.exec(text) ?? []
  const metres = Number(figure) * (metresIn[unit.toLowerCase()] ?? Number.NaN)
  return Number.isFinite(metres) && metres > 0 ? metres : null
}

/** A ball's size as it is written: `74 mm`. */
export const textOfMetres = (metres: number): string => `${Number((metres * 1000).toFixed(2))}\u00a0mm`
