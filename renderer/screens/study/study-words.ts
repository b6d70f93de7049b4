import type { Difference, Spread, StudyBias } from '../../../core/contract/study.ts'
import { decimalsForShow, roundForShow } from '../../../core/numerics/round-for-show.ts'
import { digits } from '../../components/figure-text.ts'

/** A standard deviation and the ends of its interval, all to the digits that the interval allows. */
export function spreadTexts({ standardDeviation, low, high }: Spread) {
  const decimals = Math.max(0, decimalsForShow((high - low) / 2))
  return {
    value: digits(standardDeviation, decimals),
    interval: `${digits(low, decimals)} to ${digits(high, decimals)}`,
  }
}

/** A click error as it is stated for later readings: two digits, more nobody can know of it. */
export const statedPx = (px: number): number => Number(px.toPrecision(2))

function partWords(difference: Difference | null, unit: string, up: string, down: string): string[] {
  if (difference === null) return []
  const { value, uncertainty, decimals } = roundForShow(difference.mean, difference.expandedUncertainty)
  const shown = Math.max(0, decimals)
  return [
    `${digits(Math.abs(value), shown)}\u00a0±\u00a0${digits(uncertainty, shown)}${unit} ${value < 0 ? down : up}`,
  ]
}

/** How one marks against another where that can be told, and whether chance alone would explain it. */
export function biasWords({ xPx, yPx, bearingDeg }: StudyBias): string {
  const parts = [
    ...partWords(xPx, '\u00a0px', 'to the right', 'to the left'),
    ...partWords(yPx, '\u00a0px', 'down', 'up'),
    ...partWords(bearingDeg, '°', 'clockwise', 'counter-clockwise'),
  ]
  const apart = [xPx, yPx, bearingDeg].some(
    each => each !== null && Math.abs(each.mean) > each.expandedUncertainty,
  )
  return `${parts.join(', ')}${apart ? '' : '; no more than chance'}`
}
