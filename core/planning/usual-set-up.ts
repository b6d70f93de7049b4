import type { PlanSetUp } from '../contract/plan.ts'
import { ballKinds } from './balls.ts'
import { focalOfAngle } from './field-of-view.ts'

/**
 * Where a plan begins: a phone beside the court. What is not asked for stands here, and every plan shows it.
 * Common practice, no source; the clicks and the readout are those that readings assume, see core/spin.
 */
export const usualSetUp: PlanSetUp = {
  captureFps: 240,
  exposureSeconds: 1 / 1000,
  readoutSeconds: 0.004,
  widthPx: 1920,
  heightPx: 1080,
  focalLengthPx: focalOfAngle(1920, 60),
  distanceMetres: 2,
  ballDiameterMetres: ballKinds[0]!.diameterMetres,
  rpm: 2000,
  speedMetresPerSecond: 15,
  mark: 'dot',
  markFromAxisDeg: 50,
  axisTiltDeg: 0,
  senseKnown: false,
  clickPx: 1.5,
  mostFrames: 40,
  betweenHitSdRpm: 80,
  wantedHalfWidthRpm: 50,
  presentExposureSeconds: null,
}
