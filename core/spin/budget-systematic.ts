import { assumed, pixelGridPx } from './assumptions.ts'
import { type Contribution, sum, systematic } from './contribution.ts'
import type { Estimate, SightingFit } from './estimate.ts'
import type { Observations } from './observations.ts'
import { outlineUncertainty } from './outline-uncertainty.ts'
import { certainChangeOf } from './rate-change.ts'
import { tiltOf } from './tilt.ts'

/**
 * Outlines are placed in a few frames, the others interpolated. Their error is taken as one at the first
 * sighting, another at the last, and a straight line between: it drifts slowly along the flight. A sphere fit
 * has these among its unknowns and says what they leave. Rims are clicked by whoever clicks the marks: how large their
 * error is, is known as well as the marks' scatter.
 */
export function outlineContribution(estimate: Estimate, o: Observations): Contribution {
  const { sightings, scatter, outlineRadPerSecond } = estimate
  const ofOutlines = (standardUncertainty: number): Contribution => ({
    ...systematic('outline centre and radius', standardUncertainty),
    degreesOfFreedom: scatter.degreesOfFreedom,
    withScatter: true,
  })
  if (outlineRadPerSecond !== undefined) return ofOutlines(outlineRadPerSecond)
  const clickPx = o.clickPx ?? Math.max(scatter.px, pixelGridPx)
  const first = sightings[0]!.timeSeconds
  const span = sightings.at(-1)!.timeSeconds - first
  const ends = (value: (fit: SightingFit) => number) => {
    const late = sum(sightings, fit => (value(fit) * (fit.timeSeconds - first)) / span)
    return Math.hypot(sum(sightings, value) - late, late)
  }
  const centre = Math.hypot(
    ends(fit => fit.ratePerXPx),
    ends(fit => fit.ratePerYPx),
  )
  const radius = ends(fit => fit.ratePerRadiusPx)
  const { centrePx, radiusPx } = outlineUncertainty(clickPx)
  return ofOutlines(Math.hypot(centre * centrePx, radius * radiusPx))
}

/** All times stretch together. The same for every hit of a camera. */
export function captureContribution({ rateRadPerSecond }: Estimate, { capture }: Observations): Contribution {
  const relative = capture.relativeUncertainty ?? assumed.captureRelative
  return systematic('capture rate', Math.abs(rateRadPerSecond) * relative, true)
}

/**
 * Readout r moves the time of a mark in row y of H by r·y/H. Corrected for, its own uncertainty is left.
 * Not known, it lies between 0 and the frame's whole interval: the middle is used, either end is allowed for.
 */
export function readoutContribution(
  { sightings, rateRadPerSecond, readoutRadPerSecond }: Estimate,
  o: Observations,
): Contribution {
  if (readoutRadPerSecond !== undefined) return systematic('readout', readoutRadPerSecond, true)
  const { readoutSeconds, readoutUncertaintySeconds, fps } = o.capture
  const uncertainty =
    readoutSeconds === null
      ? assumed.readoutIntervalsUncertainty / fps
      : (readoutUncertaintySeconds ?? readoutSeconds * assumed.readoutRelative)
  const rows = sum(sightings, (fit, k) => fit.ratePerPhaseRad * rowOf(o, k)) / o.picture.heightPx
  return systematic('readout', Math.abs(rateRadPerSecond * uncertainty * rows), true)
}

function rowOf(o: Observations, k: number): number {
  const sighting = o.sightings[k]!
  return sighting.kind === 'point' ? sighting.yPx : (o.frames[sighting.frame]!.outline?.yPx ?? 0)
}

/**
 * A ball that crosses the picture is looked at from a changing side: with the line of sight at
 * (x, y)/F, the picture around the ball turns with (−ẏ, ẋ)/F, and the part of that along the spin axis
 * adds to the rate. A sphere fit sees to that itself, and says what an unknown focal length leaves; for an
 * axis taken to face the camera, it is the part that its unknown tilt lets in.
 */
export function lineOfSightContribution(estimate: Estimate, o: Observations): Contribution {
  const source = 'line of sight'
  if (estimate.method !== 'bearing') return systematic(source, estimate.lineOfSightRadPerSecond ?? 0)
  const focalPx = o.capture.focalLengthPx ?? o.picture.widthPx / 2 / assumed.viewTangent
  const turned = (along: 'xPx' | 'yPx') =>
    sum(estimate.sightings, (fit, k) => {
      const outline = o.frames[o.sightings[k]!.frame]!.outline
      return (fit.ratePerPhaseRad * (outline?.[along] ?? 0)) / focalPx
    })
  return systematic(
    source,
    (estimate.tiltPriorRad ?? assumed.tiltRad) * Math.hypot(turned('xPx'), turned('yPx')),
  )
}

/**
 * A fit that holds the rate constant reads α·Σ½(t − t_middle)²·∂rate/∂phase more than the rate in the
 * middle of a spin that changes by α: an α that the residuals show, or the decay that is always possible.
 */
export function decayContribution(estimate: Estimate, o: Observations): Contribution {
  const { sightings, rateRadPerSecond } = estimate
  if (estimate.changeRadPerSecond2 !== undefined) return systematic('spin decay', 0)
  const shown = certainChangeOf(estimate, o)?.perSecond ?? 0
  const middle = (sightings[0]!.timeSeconds + sightings.at(-1)!.timeSeconds) / 2
  const bend = sum(sightings, fit => (fit.ratePerPhaseRad * (fit.timeSeconds - middle) ** 2) / 2)
  return systematic(
    'spin decay',
    Math.abs(Math.hypot(assumed.decayPerSecond * rateRadPerSecond, shown) * bend),
  )
}

/** Holes are seen into: what the pattern of a surface is off by in depth. Only its method knows. */
export const patternContribution = ({ patternRadPerSecond }: Estimate): Contribution =>
  systematic('pattern in depth', patternRadPerSecond ?? 0)

/** A bearing fit takes the axis to face the camera: what a tilt that the residuals allow does to it. */
export function tiltContribution(estimate: Estimate, o: Observations): Contribution[] {
  if (estimate.method !== 'bearing') return []
  return [
    systematic('axis tilt', tiltOf(estimate, o, estimate.tiltPriorRad ?? assumed.tiltRad).rateUncertainty),
  ]
}
