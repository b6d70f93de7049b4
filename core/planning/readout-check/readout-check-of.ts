import { WhorlError } from '../../contract/problem.ts'
import type { ReadoutCheck, ReadoutWay } from '../../contract/readout-check.ts'
import type { ReadoutFound } from './readout-found.ts'

/** A ball that falls at 5 m/s through a picture 2 m high. */
const heightsPerSecond = 2.5

/** `whorl.readout-check/1` of what was found. Throws readout-not-checked, with reason and tip, where nothing was. */
export function readoutCheckOf(way: ReadoutWay, captureFps: number, found: ReadoutFound): ReadoutCheck {
  if (!found.measured) throw new WhorlError('readout-not-checked', { reason: found.reason, tip: found.tip })
  const { readoutSeconds, standardUncertaintySeconds, remarks } = found
  return {
    schema: 'whorl.readout-check/1',
    way,
    captureFps,
    readoutSeconds,
    standardUncertaintySeconds,
    // Sampled at intervals stretched by 1 + heights per second · readout, see core/timing/readout.ts.
    rpmEffect: {
      heightsPerSecond,
      uncorrectedRelative: heightsPerSecond * readoutSeconds,
      leftRelative: heightsPerSecond * standardUncertaintySeconds,
    },
    remarks,
  }
}
