import { lineOfSight } from '../geometry/line-of-sight.ts'
import { angleBetween, sum, type Vector } from '../geometry/vector.ts'
import { chiSquareQuantile } from '../numerics/chi-square.ts'
import { degOfRad, radOfDeg } from '../units/angle.ts'
import { assumed } from './assumptions.ts'
import { bandOf } from './band.ts'
import { fitBearing } from './bearing.ts'
import { budgetOf } from './budget.ts'
import type { Estimate, Estimator } from './estimate.ts'
import type { Observations } from './observations.ts'
import { equipmentOf } from './sphere/equipment.ts'
import { fitSphere } from './sphere/fit-sphere.ts'
import { tiltOf } from './tilt.ts'

/** Known worse than this, an axis cannot be said to face the camera. */
const knownAxisRad = radOfDeg(10)
/** The axis faces the camera when its tilt is within this many standard uncertainties of none. */
const facing = 2
/** The simpler fit may be less certain than the sphere's by a tenth; so may what it takes for granted make it. */
const mostLoss = 1.1

/**
 * The method that the data allow. The sphere fit where it finds an axis, for it needs no assumption. Where
 * that axis faces the camera and bearings about the ball's centre fit as well, the simpler bearing fit, unless
 * the tilt that the sphere leaves possible makes it clearly less certain. Directions alone say little of the axis:
 * if their own residuals earn the trust that it faces the camera, the bearing fit stands in the same way. Else, and where
 * no axis is found, the figure rests on an assumption, and the reading says so.
 */
export const chooseMethod: Estimator = (o, near) => {
  const bearing = fitBearing(o, near)
  const trusted = bearing.measured && earnsTrust(bearing, o)
  if (trusted && !assumesMuch(bearing, o)) return withWave(bearing, o)
  const sphere = fitSphere(o, near)
  if (trusted) return sphere.measured && narrows(sphere, bearing, o) ? sphere : withWave(bearing, o)
  if (!sphere.measured)
    return bearing.measured ? { ...withWave(bearing, o), unchecked: axisUnchecked } : bearing
  if (!bearing.measured || !agrees(bearing, sphere)) return sphere
  const tilt = tiltOfAxis(sphere, o)
  if (!facesCamera(sphere, tilt)) return sphere
  const within = Math.hypot(tilt, sphere.axisUncertaintyRad!)
  const facing: Estimate = {
    ...bearing,
    tiltPriorRad: within / Math.SQRT2,
    remarks: [`The axis faces the camera within ${degOfRad(within).toFixed(0)}°.`],
  }
  return losesAgainst(facing, sphere, o) ? sphere : facing
}

const uncertaintyOf = (estimate: Estimate, o: Observations): number =>
  bandOf(budgetOf(estimate, o)).standardUncertainty

/** Whether the simpler fit is clearly less certain than the sphere's. */
const losesAgainst = (bearing: Estimate, sphere: Estimate, o: Observations): boolean =>
  uncertaintyOf(bearing, o) > mostLoss * uncertaintyOf(sphere, o)

/** Whether what a bearing fit takes for granted makes it clearly less certain than its scatter does. */
const assumesMuch = (bearing: Estimate, o: Observations): boolean =>
  uncertaintyOf(bearing, o) > mostLoss * bearing.scatterUncertaintyRadPerSecond

/** Whether the sphere's rate lies within the bearing fit's, all that it leaves open counted, and says more. */
const narrows = (sphere: Estimate, bearing: Estimate, o: Observations): boolean =>
  Math.abs(sphere.rateRadPerSecond - bearing.rateRadPerSecond) <= 2 * uncertaintyOf(bearing, o) &&
  losesAgainst(bearing, sphere, o)

const axisUnchecked =
  'The marks do not show where the axis points; the figure holds for one that faces the camera.'

/** Turns over which waves of a tilt show and average out, and what is left of them in the rate, as a share. */
const fewestTurns = 1
const fewestRedundant = 8
const leastTiltShare = 0.03
/** Scatter beyond this multiple of the click error is not the clicks' alone. */
const clicksAlone = 1.5

/**
 * Bearings alone, for long enough that a tilt would show in them, and with no more scatter than clicks
 * have. Not those of a line that looks the same twice a turn: on a tilted ball it can swing to and fro past
 * a right angle, which looks like turning at half the rate.
 */
function earnsTrust(bearing: Estimate, o: Observations): boolean {
  const times = bearing.sightings.map(fit => fit.timeSeconds)
  const span = Math.max(...times) - Math.min(...times)
  const rate = Math.abs(bearing.rateRadPerSecond)
  return (
    o.sightings.every(({ kind, mark }) => kind === 'direction' && o.marks[mark]!.symmetryOrder === 1) &&
    (rate * span) / (2 * Math.PI) >= fewestTurns &&
    bearing.scatter.redundancy >= fewestRedundant &&
    bearing.scatter.px <= clicksAlone * (o.clickPx ?? assumed.clickPx) &&
    tiltOf(bearing, o, assumed.tiltRad).rateUncertainty <= leastTiltShare * rate
  )
}

function withWave(bearing: Estimate, o: Observations): Estimate {
  const { tiltRad } = tiltOf(bearing, o, assumed.tiltRad)
  if (tiltRad === null) return bearing
  const wave = `The bearings wave as for an axis tilted by about ${degOfRad(tiltRad).toFixed(0)}°.`
  return { ...bearing, remarks: [...bearing.remarks, wave] }
}

/** Angle between the axis and the middle line of sight to the ball, 0 to π/2. */
function tiltOfAxis({ rotationRadPerSecond }: Estimate, o: Observations): number {
  const { camera } = equipmentOf(o)
  const away = o.frames
    .flatMap(({ outline }) => (outline ? [lineOfSight(camera, outline.xPx, outline.yPx)] : []))
    .reduce<Vector>(sum, [0, 0, 1e-9])
  const between = angleBetween(rotationRadPerSecond, away)
  return Math.min(between, Math.PI - between)
}

function facesCamera({ axisUncertaintyRad }: Estimate, tiltRad: number): boolean {
  const uncertainty = axisUncertaintyRad ?? Number.POSITIVE_INFINITY
  return uncertainty < knownAxisRad && tiltRad < facing * uncertainty
}

/** The same rate, and no more scatter than chance (1 in 100) lets the simpler model have. */
function agrees(bearing: Estimate, sphere: Estimate): boolean {
  const apart = Math.abs(bearing.rateRadPerSecond - sphere.rateRadPerSecond)
  const { px, redundancy } = bearing.scatter
  const allowed = chiSquareQuantile(2.326, Math.max(redundancy, 1)) / Math.max(redundancy, 1)
  return (
    apart < 4 * Math.hypot(bearing.scatterUncertaintyRadPerSecond, sphere.scatterUncertaintyRadPerSecond) &&
    px ** 2 <= allowed * sphere.scatter.px ** 2
  )
}
