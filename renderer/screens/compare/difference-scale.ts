import type { ComparedPair } from '../../../core/contract/standings.ts'

/** An axis of differences with zero in its middle. */
export type DifferenceScale = { reachRpm: number }

export function differenceScaleOf(pairs: readonly ComparedPair[]): DifferenceScale {
  const reach = Math.max(
    10,
    ...pairs.flatMap(({ differenceRpm, band }) => [
      Math.abs(differenceRpm),
      ...(band ? [Math.abs(band.lowRpm), Math.abs(band.highRpm)] : []),
    ]),
  )
  const power = 10 ** Math.floor(Math.log10(reach))
  const steps = [1, 2, 5, 10].map(step => step * power)
  return { reachRpm: steps.find(step => step >= reach)! }
}

export const percentOnDifference = ({ reachRpm }: DifferenceScale, rpm: number): number =>
  50 + (50 * rpm) / reachRpm
