import type { ComparedPair } from '../../../core/contract/standings.ts'
import { digits, halfWidthOf, rpmWithHalfWidth } from '../../components/figure-text.ts'
import { chanceWords } from '../../components/place-words.ts'

/** Below this, a difference counts as told. */
const rarely = 0.05

type Verdict = { more: string; less: string; chance: string; told: 'more' | 'alike' | 'unknown' }

/** Which of a pair likely spins more, and whether the hits tell. */
export function verdictOf(pair: ComparedPair, names: ReadonlyMap<string, string>): Verdict {
  const { a, b, probabilityAOverB: p, adjustedP } = pair
  const [more, less] = (p ?? 1) >= 0.5 ? [a, b] : [b, a]
  return {
    more: names.get(more) ?? '',
    less: names.get(less) ?? '',
    chance: p === null ? '' : chanceWords(Math.max(p, 1 - p)),
    told: adjustedP === null ? 'unknown' : adjustedP < rarely ? 'more' : 'alike',
  }
}

/** `+120 ± 40 rpm (80 to 160)`. */
export function differenceWords({ differenceRpm, band }: ComparedPair): string {
  const sign = differenceRpm > 0 ? '+' : ''
  if (band === null) return `${sign}${digits(differenceRpm)} rpm`
  return `${sign}${rpmWithHalfWidth(differenceRpm, halfWidthOf(band))} rpm (${digits(band.lowRpm)} to ${digits(band.highRpm)})`
}

export function pText(p: number | null): string {
  if (p === null) return '–'
  return p < 0.001 ? '< 0.001' : digits(p, 3)
}
