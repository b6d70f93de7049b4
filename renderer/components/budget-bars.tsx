import './budget-bars.css'
import type { BudgetLine } from '../../core/contract/reading.ts'
import { decimalsForShow } from '../../core/numerics/round-for-show.ts'
import { digits } from './figure-text.ts'

/** Smaller than this share of the largest, a line adds nothing that one could see. */
const worthABar = 0.04

/** What makes a band: every contribution as a bar, largest first, on one scale. */
export function BudgetBars({ budget }: { budget: readonly BudgetLine[] }) {
  const lines = budget
    .filter(line => line.standardUncertaintyRpm > 0)
    .toSorted((a, b) => b.standardUncertaintyRpm - a.standardUncertaintyRpm)
  const largest = lines[0]?.standardUncertaintyRpm ?? 1
  const shown = lines.filter(line => line.standardUncertaintyRpm >= largest * worthABar)
  return (
    <>
      <ul className="budget-bars">
        {shown.map(({ source, kind, sharedByHits, standardUncertaintyRpm }) => (
          <li key={source} data-kind={kind}>
            <span>
              {source}
              {sharedByHits && <span className="budget-shared"> all hits</span>}
            </span>
            <span className="budget-bar" aria-hidden="true">
              <span style={{ width: `${(100 * standardUncertaintyRpm) / largest}%` }} />
            </span>
            <span className="figure">
              {digits(standardUncertaintyRpm, Math.max(0, decimalsForShow(largest)))}
            </span>
          </li>
        ))}
      </ul>
      <p className="quiet">
        {lines.length > shown.length && `${lines.length - shown.length} smaller. `}
        Standard uncertainties, rpm; solid from scatter, open from equipment.
      </p>
    </>
  )
}
