import type { Estimate, SightingFit } from '../../../core/spin/estimate.ts'
import type { Observations } from '../../../core/spin/observations.ts'
import { radPerSecondOfRpm } from '../../../core/units/rate.ts'

/** A logo seen as a direction in every one of 24 frames at 240 fps, unless said otherwise. */
export function observationsWith(change: Partial<Observations> = {}): Observations {
  const frames = Array.from({ length: 24 }, (_, index) => ({
    index,
    timeSeconds: index / 240,
    outline: { xPx: 300, yPx: 260, radiusPx: 36 },
  }))
  return {
    frames,
    marks: [{ id: 'logo', symmetryOrder: 1 }],
    sightings: frames.map((_, frame) => ({ kind: 'direction', frame, mark: 0, bearingRad: 0 })),
    hidden: [],
    capture: {
      fps: 240,
      relativeUncertainty: 0,
      exposureSeconds: null,
      readoutSeconds: 0,
      readoutUncertaintySeconds: null,
      focalLengthPx: null,
      tickSeconds: null,
    },
    picture: { widthPx: 960, heightPx: 540 },
    ballDiameterMetres: 0.074,
    plausible: { maxRateRadPerSecond: radPerSecondOfRpm(5000), sense: null },
    clickPx: 1,
    ...change,
  }
}

export const fitWith = (change: Partial<SightingFit> = {}): SightingFit => ({
  timeSeconds: 0,
  residualPx: 0,
  phaseResidualRad: 0,
  pxPerRad: 36,
  way: [0, 0],
  weight: 1,
  ratePerXPx: 0,
  ratePerYPx: 0,
  ratePerRadiusPx: 0,
  ratePerPhaseRad: 0,
  ...change,
})

export const candidate = (rpm: number, support = 1, plausible = true) => ({
  rateRadPerSecond: radPerSecondOfRpm(rpm),
  support,
  plausible,
})

/** What a good bearing fit of these observations would say of a rate, rpm, clockwise positive. */
export function estimateAt(rpm: number, o: Observations, change: Partial<Estimate> = {}): Estimate {
  const rate = radPerSecondOfRpm(rpm)
  return {
    measured: true,
    method: 'bearing',
    rotationRadPerSecond: [0, 0, rate],
    rateRadPerSecond: rate,
    axisUncertaintyRad: null,
    scatter: { px: 1, from: 'residuals', degreesOfFreedom: 22, redundancy: 22 },
    scatterUncertaintyRadPerSecond: 0.5,
    candidates: [candidate(rpm)],
    sightings: o.sightings.map(({ frame }) => fitWith({ timeSeconds: o.frames[frame]!.timeSeconds })),
    modelled: [],
    remarks: [],
    ...change,
  }
}
