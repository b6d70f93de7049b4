import type { PlanSetUp } from '../../../core/contract/plan.ts'

/** A phone at 240 fps beside the court, 1080p, a ball across 3.4 m of picture at 2.5 m. */
export const phoneBeside: PlanSetUp = {
  captureFps: 240,
  exposureSeconds: 1 / 2000,
  readoutSeconds: 0.004,
  widthPx: 1920,
  heightPx: 1080,
  focalLengthPx: 1400,
  distanceMetres: 2.5,
  ballDiameterMetres: 0.0742,
  rpm: 1500,
  speedMetresPerSecond: 18,
  mark: 'dot',
  markFromAxisDeg: 50,
  axisTiltDeg: 0,
  senseKnown: false,
  clickPx: 1,
  mostFrames: 40,
  betweenHitSdRpm: 60,
  wantedHalfWidthRpm: 50,
  presentExposureSeconds: null,
}

/** Set-ups that differ in what makes the band: frames, size, click, smear, tilt, mark, readout. */
export const benchSetUps: Record<string, PlanSetUp> = {
  'phone at 240, one dot': phoneBeside,
  'the same, two dots': { ...phoneBeside, mark: 'two-dots' },
  'the same, an arrow': { ...phoneBeside, mark: 'arrow' },
  'the same, a plain line': { ...phoneBeside, mark: 'line', rpm: 1100 },
  'axis 30° aside': { ...phoneBeside, axisTiltDeg: 30, markFromAxisDeg: 60 },
  'axis 60° aside, two dots': { ...phoneBeside, axisTiltDeg: 60, mark: 'two-dots', markFromAxisDeg: 75 },
  'slow shutter': { ...phoneBeside, exposureSeconds: 1 / 1000 },
  'small in the picture': { ...phoneBeside, distanceMetres: 5 },
  'near, few frames': { ...phoneBeside, distanceMetres: 1.2 },
  'careless clicks': { ...phoneBeside, clickPx: 2.5 },
  '120 fps': { ...phoneBeside, captureFps: 120, rpm: 1000 },
  '480 fps, 720p': { ...phoneBeside, captureFps: 480, widthPx: 1280, heightPx: 720, focalLengthPx: 930 },
  '1000 fps, near': { ...phoneBeside, captureFps: 1000, rpm: 3500, distanceMetres: 1.5, readoutSeconds: 0 },
  'golf ball': {
    ...phoneBeside,
    captureFps: 1000,
    ballDiameterMetres: 0.04267,
    exposureSeconds: 1 / 10_000,
    readoutSeconds: 0.001,
    rpm: 2700,
    speedMetresPerSecond: 60,
    distanceMetres: 1.5,
  },
}
