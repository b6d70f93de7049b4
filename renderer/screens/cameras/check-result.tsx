import type { CheckDone } from '../../../core/contract/checks.ts'
import type { FocalFound } from '../../../core/planning/focal-length.ts'
import { digits } from '../../components/figure-text.ts'
import { EvidencePlot } from './evidence-plot.tsx'

/** Twice the standard uncertainty holds the truth with about 95 % (JCGM 100:2008, 6.3.3). */
const twice = 2
/** A spin that the effect is told at. */
const told = 2000

export type Found = { done: CheckDone; focal: null } | { done: null; focal: FocalFound }

/** What a check found, how sure it is, what it rests on, and what it does to a reading. */
export function CheckResult({ found, children }: { found: Found; children: React.ReactNode }) {
  const { figure, unit, half, effect, remarks } = wordsOf(found)
  return (
    <section className="check-result" aria-label="Result" aria-live="polite">
      <p className="check-result-figure figure">
        {figure}
        <span className="quiet"> ± {half}</span>
        <span className="unit"> {unit}, 95 %</span>
      </p>
      <p>{effect}</p>
      {remarks.map(remark => (
        <p key={remark} className="quiet">
          {remark}
        </p>
      ))}
      {found.done?.evidence && <EvidencePlot evidence={found.done.evidence} />}
      <div className="check-steps">{children}</div>
    </section>
  )
}

function wordsOf({ done, focal }: Found) {
  if (done?.rate) {
    const { captureFps, relativeUncertainty, nominalFps, rpmFactor, remarks } = done.rate
    const half = told * rpmFactor * twice * relativeUncertainty
    return {
      figure: captureFps.toFixed(3),
      unit: 'fps',
      half: (twice * relativeUncertainty * captureFps).toFixed(3),
      effect: `A ball that reads ${digits(told)} rpm at ${nominalFps} fps truly turns at ${digits(told * rpmFactor, 1)} ± ${digits(half, 1)} rpm by this clock.`,
      remarks,
    }
  }
  if (done?.readout) {
    const { readoutSeconds, standardUncertaintySeconds, rpmEffect, remarks } = done.readout
    const { heightsPerSecond, uncorrectedRelative, leftRelative } = rpmEffect
    return {
      figure: (1000 * readoutSeconds).toFixed(2),
      unit: 'ms',
      half: (1000 * twice * standardUncertaintySeconds).toFixed(2),
      effect: `A ball at ${digits(told)} rpm that falls through ${heightsPerSecond} pictures a second reads ${digits(told * uncorrectedRelative, 1)} rpm wrong without this, and ±${digits(told * twice * leftRelative, 1)} rpm unsure with it.`,
      remarks,
    }
  }
  const { focalLengthPx, standardUncertaintyPx, acrossDeg, remarks } = focal!
  return {
    figure: focalLengthPx.toFixed(0),
    unit: 'px',
    half: (twice * standardUncertaintyPx).toFixed(0),
    effect: `The picture spans ${acrossDeg.toFixed(1)}° across. Readings correct the changing line of sight with this, instead of carrying it in the band.`,
    remarks,
  }
}
