import { pixelGridPx } from './assumptions.ts'
import { ballVelocity } from './ball-velocity.ts'
import { type Contribution, random, rootSum } from './contribution.ts'
import type { Estimate, SightingFit } from './estimate.ts'
import type { Observations } from './observations.ts'

/** Each coordinate is known to a whole pixel: rectangular, 1/√12 px. */
export function pixelGridContribution({ sightings }: Estimate): Contribution {
  return random('pixel grid', pixelGridPx * rootSum(sightings, perPx))
}
/** ∂rate/∂px of a click, across both coordinates; a direction's click is at its radius. */
const perPx = (fit: SightingFit): number =>
  Math.hypot(fit.ratePerXPx, fit.ratePerYPx) || (fit.pxPerRad > 0 ? fit.ratePerPhaseRad / fit.pxPerRad : 0)

/**
 * A click anywhere in a smear: its time is anywhere in the exposure, rectangular. Meanwhile the mark turns, and
 * flies with the ball.
 */
export function smearContribution({ sightings, rateRadPerSecond }: Estimate, o: Observations): Contribution {
  const timeSeconds = (o.capture.exposureSeconds ?? 0) / Math.sqrt(12)
  const { x, y } = ballVelocity(o.frames)
  return random(
    'smear',
    timeSeconds *
      rootSum(
        sightings,
        fit => fit.ratePerPhaseRad * rateRadPerSecond + fit.ratePerXPx * x + fit.ratePerYPx * y,
      ),
  )
}

/** Timestamps rounded to a tick: rectangular, on its own in every frame, common to the marks of a frame. */
export function tickContribution({ sightings, rateRadPerSecond }: Estimate, o: Observations): Contribution {
  const timeSeconds = (o.capture.tickSeconds ?? 0) / Math.sqrt(12)
  const byFrame = new Float64Array(o.frames.length)
  sightings.forEach((fit, k) => {
    byFrame[o.sightings[k]!.frame]! += fit.ratePerPhaseRad * rateRadPerSecond * timeSeconds
  })
  return random('timestamp tick', Math.hypot(...byFrame))
}
