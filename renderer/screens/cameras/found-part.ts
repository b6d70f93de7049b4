import type { CameraProfileDetails, FoundBy } from '../../../core/contract/cameras.ts'
import type { Found } from './check-result.tsx'

/** What of the camera a check makes known. */
export function partOf({ done, focal }: Found, by: FoundBy): Partial<CameraProfileDetails> {
  if (done?.rate) {
    const { captureFps, relativeUncertainty } = done.rate
    return {
      rate: { captureFps: rounded(captureFps), relativeUncertainty: rounded(relativeUncertainty), by },
    }
  }
  if (done?.readout) {
    const { readoutSeconds, standardUncertaintySeconds } = done.readout
    return {
      readout: {
        seconds: rounded(readoutSeconds),
        uncertaintySeconds: rounded(standardUncertaintySeconds),
        by,
      },
    }
  }
  if (!focal) return {}
  const { focalLengthPx, standardUncertaintyPx } = focal
  return {
    focal: { focalLengthPx: rounded(focalLengthPx), uncertaintyPx: rounded(standardUncertaintyPx), by },
  }
}

/** Digits far beyond any check's uncertainty, few enough to read in a field. */
const rounded = (value: number) => Number(value.toPrecision(8))
