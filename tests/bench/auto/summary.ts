import { median } from '../../../core/numerics/median.ts'
import type { Verdict } from './judge.ts'

export type Contact = { trueFrame: number; foundFrame: number | null }
export type Figures = Record<
  | 'hits'
  | 'medianRateErrorPercent'
  | 'p95RateErrorPercent'
  | 'medianAxisErrorDeg'
  | 'coverage'
  | 'clear'
  | 'clearMedianRateErrorPercent'
  | 'clearP95RateErrorPercent'
  | 'clearMedianAxisErrorDeg'
  | 'clearCoverage'
  | 'ambiguous'
  | 'refused'
  | 'wrongAliasCalledClear'
  | 'medianCentreErrorPx'
  | 'contactWithinOneFrame'
  | 'secondsPerHit',
  number
>

const share = (all: readonly boolean[]): number => all.filter(Boolean).length / Math.max(all.length, 1)
const quantile = (values: readonly number[], q: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(q * values.length))] ?? Number.NaN

const axisErrors = (of: readonly Verdict[]): number[] =>
  of.flatMap(v => (v.axisErrorDeg === null ? [] : [v.axisErrorDeg]))

/** The figures of whorl.bench/1, `auto`, over the hits below their ceilings; shares as fractions of 1. */
export function figuresOf(
  all: readonly Verdict[],
  contacts: readonly Contact[],
  seconds: readonly number[],
): Figures {
  const judged = all.filter(v => v.belowCeiling)
  const read = judged.filter(v => v.reading?.rpm != null)
  const errors = read.map(v => v.rateErrorPercent!)
  const clear = read.filter(v => v.reading!.flag === 'clear')
  const clearErrors = clear.map(v => v.rateErrorPercent!)
  return {
    hits: judged.length,
    medianRateErrorPercent: median(errors),
    p95RateErrorPercent: quantile(errors, 0.95),
    medianAxisErrorDeg: median(axisErrors(read)),
    coverage: share(read.filter(v => v.reading!.flag !== 'ambiguous').map(v => v.covered === true)),
    clear: clear.length,
    clearMedianRateErrorPercent: median(clearErrors),
    clearP95RateErrorPercent: quantile(clearErrors, 0.95),
    clearMedianAxisErrorDeg: median(axisErrors(clear)),
    clearCoverage: share(clear.map(v => v.covered === true)),
    ambiguous: read.filter(v => v.reading!.flag === 'ambiguous').length,
    refused: 1 - read.length / Math.max(judged.length, 1),
    wrongAliasCalledClear: judged.filter(v => v.wrongAliasCalledClear).length,
    medianCentreErrorPx: median(all.flatMap(v => v.centreErrorsPx)),
    contactWithinOneFrame: share(
      contacts.map(
        ({ trueFrame, foundFrame }) => foundFrame !== null && Math.abs(foundFrame - trueFrame) <= 1,
      ),
    ),
    secondsPerHit: median(seconds),
  }
}
