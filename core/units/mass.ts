/** 1 oz = 28.349523125 g exactly (international yard and pound agreement, 1959). */
const kilogramsIn: Record<string, number> = { g: 1e-3, kg: 1, oz: 0.028349523125 }

/**
 * Kilograms that a person wrote as `24 g`, `0.85 oz` or `0.024 kg`; null for anything else and for 0 or less.
 *
 * @example kilogramsOfText('24 g') // 0.024
 */
export function kilogramsOfText(text: string): number | null {
  const [, figure, unit = ''] = /^\s*(\d*\.?\d+)\s*(kg|g|oz)\s*$/i.exec(text) ?? []
  const kilograms = Number(figure) * (kilogramsIn[unit.toLowerCase()] ?? Number.NaN)
  return Number.isFinite(kilograms) && kilograms > 0 ? kilograms : null
}
