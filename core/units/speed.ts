/** 1 mile = 1609.344 m exactly (international yard and pound agreement, 1959). */
const metresPerSecondIn: Record<string, number> = {
  '': 1,
  'm/s': 1,
  'km/h': 1000 / 3600,
  kmh: 1000 / 3600,
  mph: 1609.344 / 3600,
  'ft/s': 0.3048,
}

/**
 * Metres a second that a person wrote as `18m/s`, `40mph`, `65 km/h` or `18`; null for anything else and for
 * 0 or less.
 *
 * @example metresPerSecondOfText('40 mph') // 17.8816
 */
export function metresPerSecondOfText(text: string): number | null {
  const [, figure, unit = ''] = /^\s*(\d*\.?\d+)\s*(m\/s|km\/h|kmh|mph|ft\/s|)\s*$/i.exec(text) ?? []
  const speed = Number(figure) * (metresPerSecondIn[unit.toLowerCase()] ?? Number.NaN)
  return Number.isFinite(speed) && speed > 0 ? speed : null
}
