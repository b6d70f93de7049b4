import type { ComparedPair } from '../../../core/contract/standings.ts'
import { type DifferenceScale, percentOnDifference } from './difference-scale.ts'

type DifferenceBarProps = { pair: ComparedPair; scale: DifferenceScale; isTold: boolean }

/** A difference with its band about the zero line. The figures stand beside it as text. */
export function DifferenceBar({ pair: { differenceRpm, band }, scale, isTold }: DifferenceBarProps) {
  const at = (rpm: number) => `${percentOnDifference(scale, rpm)}%`
  return (
    <svg className="difference-bar" data-told={isTold} width="100%" height="40" aria-hidden="true">
      <line className="difference-zero" x1="50%" x2="50%" y1="0" y2="40" />
      {band && (
        <line className="difference-band" x1={at(band.lowRpm)} x2={at(band.highRpm)} y1="20" y2="20" />
      )}
      <circle cx={at(differenceRpm)} cy="20" r="4" />
    </svg>
  )
}
