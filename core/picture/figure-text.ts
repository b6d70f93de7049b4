import { type FigureForm, type NumberForm, type SpinUnit, usualFigureForm } from '../contract/publish.ts'
import { roundForShow } from '../numerics/round-for-show.ts'
import { radPerSecondOfRpm } from '../units/rate.ts'

const signs: Record<NumberForm, readonly [between: string, decimal: string]> = {
  'space-point': ['\u202f', '.'],
  'space-comma': ['\u202f', ','],
  'comma-point': [',', '.'],
  'point-comma': ['.', ','],
}

/**
 * Digits in groups of three from five on, set apart by a narrow no-break space (ISO 80000-1, 7.3.1) unless
 * another form is asked for, with a true minus.
 */
export function digits(value: number, decimals = 0, numbers: NumberForm = usualFigureForm.numbers): string {
  const [between, decimal] = signs[numbers]
  const [whole = '', part] = Math.abs(value).toFixed(decimals).split('.')
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, between) : whole
  const sign = value < 0 && Number(value.toFixed(decimals)) !== 0 ? '\u2212' : ''
  return `${sign}${grouped}${part ? `${decimal}${part}` : ''}`
}

/** What a unit is called, how much of it one rpm is, and the decimals that say as much as whole rpm. */
const units: Record<SpinUnit, { word: string; perRpm: number; decimals: number }> = {
  rpm: { word: 'rpm', perRpm: 1, decimals: 0 },
  'turns-per-second': { word: 'turns/s', perRpm: 1 / 60, decimals: 2 },
  'rad-per-second': { word: 'rad/s', perRpm: radPerSecondOfRpm(1), decimals: 1 },
}

/** Figures in one form and unit. Rates are given in rpm. */
export type Figures = {
  unit: string
  perRpm: number
  digits(value: number, decimals?: number): string
  /** A rate to the nearest rpm, or what is as fine in the unit; `finer` adds decimals. */
  rate(rpm: number, finer?: number): string
  /** `2331 ± 9`: value and half-width, both to the digits that the half-width allows. */
  spin(rpm: number, halfWidthRpm: number | null): string
}

export function figuresIn({ numbers, unit }: FigureForm): Figures {
  const { word, perRpm, decimals } = units[unit]
  const said = (value: number, places = 0) => digits(value, places, numbers)
  const rate = (rpm: number, finer = 0) => said(rpm * perRpm, decimals + finer)
  return {
    ...{ unit: word, perRpm, digits: said, rate },
    spin(rpm, halfWidthRpm) {
      if (halfWidthRpm === null) return rate(rpm)
      const shown = roundForShow(rpm * perRpm, halfWidthRpm * perRpm)
      const places = Math.max(0, shown.decimals)
      return `${said(shown.value, places)}\u00a0±\u00a0${said(shown.uncertainty, places)}`
    },
  }
}

/** Figures as the program itself shows them. */
export const usualFigures = figuresIn(usualFigureForm)
export const rpmWithHalfWidth = usualFigures.spin

/** Half of a band's width. */
export const halfWidthOf = (band: { lowRpm: number; highRpm: number }): number =>
  (band.highRpm - band.lowRpm) / 2
