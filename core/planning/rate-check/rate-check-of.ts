import { WhorlError } from '../../contract/problem.ts'
import type { RateCheck } from '../../contract/rate-check.ts'
import type { RateFound } from './rate-found.ts'

/** `whorl.rate-check/1` of what was found. Throws rate-not-checked, with reason and tip, where nothing was. */
export function rateCheckOf(way: RateCheck['way'], nominalFps: number, found: RateFound): RateCheck {
  if (!found.measured) throw new WhorlError('rate-not-checked', { reason: found.reason, tip: found.tip })
  const { captureFps, relativeUncertainty, remarks } = found
  return {
    schema: 'whorl.rate-check/1',
    way,
    nominalFps,
    captureFps,
    relativeUncertainty,
    rpmFactor: captureFps / nominalFps,
    remarks,
  }
}
