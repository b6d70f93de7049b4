import type { Reading } from '../../core/contract/reading.ts'
import { roundForShow } from '../../core/numerics/round-for-show.ts'
import { ordinal } from '../../core/picture/ordinal.ts'

export { ordinal }

/** Plain text in columns: what stands in a column begins at one place, figures end at one. */
export function table(rows: string[][], alignRight: number[] = []): string {
  const widths = rows[0]?.map((_, i) => Math.max(...rows.map(row => [...(row[i] ?? '')].length))) ?? []
  return rows
    .map(row => {
      const cells = row.map((cell, i) => {
        const pad = ' '.repeat(widths[i]! - [...cell].length)
        return alignRight.includes(i) ? pad + cell : cell + pad
      })
      return `${cells.join('  ').trimEnd()}\n`
    })
    .join('')
}

/** `2331 ± 9`, to the digits that the band allows; `2331` where there is none; `–` without a figure. */
export function rpmText({ rpm, band }: Pick<Reading, 'rpm' | 'band'>): string {
  if (rpm === null) return '–'
  if (band === null) return rpm.toFixed(0)
  const shown = roundForShow(rpm, (band.highRpm - band.lowRpm) / 2)
  const decimals = Math.max(0, shown.decimals)
  return `${shown.value.toFixed(decimals)} ± ${shown.uncertainty.toFixed(decimals)}`
}

export const bandText = (band: { lowRpm: number; highRpm: number } | null): string =>
  band === null ? '–' : `${band.lowRpm.toFixed(0)}–${band.highRpm.toFixed(0)}`
