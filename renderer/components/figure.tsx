import { rpmWithHalfWidth } from './figure-text.ts'

type FigureProps = { rpm: number; halfWidthRpm?: number | null; unit?: boolean }

/** A rate with its half-width, both rounded by the half-width; the unit smaller and quieter. */
export function Figure({ rpm, halfWidthRpm = null, unit = true }: FigureProps) {
  return (
    <span className="figure">
      {rpmWithHalfWidth(rpm, halfWidthRpm)}
      {unit && <span className="unit">{'\u00a0rpm'}</span>}
    </span>
  )
}
