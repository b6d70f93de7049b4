import type { CheckEvidence } from '../../contract/checks.ts'

/** How long a sensor takes from its first row to its last, with its standard uncertainty; or why it cannot be said. */
export type ReadoutFound =
  | {
      measured: true
      readoutSeconds: number
      standardUncertaintySeconds: number
      remarks: string[]
      evidence: CheckEvidence
    }
  | { measured: false; reason: string; tip: string }

export const noReadout = (reason: string, tip: string): ReadoutFound => ({ measured: false, reason, tip })

/** Short of either of these a readout is of no use to a reading: a tenth of itself, or this time. */
const coarsest = { relative: 0.1, seconds: 0.0003 }
/** Capture rates are known so well, relative, after a time check or as cameras say them (see capture-rate). */
const rateRelative = 0.001 / Math.sqrt(3)

/** A readout as it came out of a fit, unless it is too unsure or runs the wrong way. */
export function readoutFound(
  readoutSeconds: number,
  fitSeconds: number,
  remarks: string[],
  evidence: CheckEvidence,
  surer: string,
): ReadoutFound {
  const standardUncertaintySeconds = Math.hypot(fitSeconds, rateRelative * readoutSeconds)
  const ms = (seconds: number) => `${(1000 * seconds).toFixed(2)} ms`
  const enough = Math.max(coarsest.relative * Math.abs(readoutSeconds), coarsest.seconds)
  if (!(standardUncertaintySeconds <= enough))
    return noReadout(
      `The readout comes out as ${ms(readoutSeconds)} with a standard uncertainty of ${ms(standardUncertaintySeconds)}: too unsure to use.`,
      surer,
    )
  if (readoutSeconds < -3 * standardUncertaintySeconds)
    return noReadout(
      `The lowest row comes ${ms(-readoutSeconds)} before the topmost.`,
      'Film with the camera upright, not upside down, and give the clip as the camera wrote it.',
    )
  return {
    measured: true,
    readoutSeconds: Math.max(readoutSeconds, 0),
    standardUncertaintySeconds,
    remarks: [
      ...remarks,
      ...(readoutSeconds < 2 * standardUncertaintySeconds
        ? ['No different from 0: a global shutter, or close to one.']
        : []),
    ],
    evidence,
  }
}
