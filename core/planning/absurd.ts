import type { PlanSetUp } from '../contract/plan.ts'
import { textOfSeconds } from '../units/duration.ts'

export type Absurd = { field: keyof PlanSetUp; what: string; hint: string }

/** What no camera or ball can be, though each figure by itself could: with the field to change. Null when all can. */
export function absurdIn(setUp: PlanSetUp): Absurd | null {
  const interval = 1 / setUp.captureFps
  if (setUp.exposureSeconds > interval * (1 + 1e-9))
    return {
      field: 'exposureSeconds',
      what: `An exposure of ${textOfSeconds(setUp.exposureSeconds)} is longer than a frame at ${setUp.captureFps} fps (${textOfSeconds(interval)}).`,
      hint: 'Give a shorter exposure or fewer frames a second.',
    }
  if (setUp.readoutSeconds > interval * (1 + 1e-9))
    return {
      field: 'readoutSeconds',
      what: `A readout of ${textOfSeconds(setUp.readoutSeconds)} is longer than a frame at ${setUp.captureFps} fps (${textOfSeconds(interval)}).`,
      hint: 'A sensor is read once a frame; 0 stands for a global shutter.',
    }
  if (setUp.distanceMetres < 2 * setUp.ballDiameterMetres)
    return {
      field: 'distanceMetres',
      what: 'The lens stands within two diameters of the ball.',
      hint: 'Give the distance from the lens to the ball, as 2 m or 6 ft.',
    }
  if (setUp.speedMetresPerSecond > 343)
    return {
      field: 'speedMetresPerSecond',
      what: 'The ball is faster than sound.',
      hint: 'Give its speed as 15 m/s, 34 mph or 55 km/h.',
    }
  return null
}
