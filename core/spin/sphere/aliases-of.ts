import { rotationFromVector, turned } from '../../geometry/rotation.ts'
import { length, scaled, unit } from '../../geometry/vector.ts'
import { wrapAngle } from '../../numerics/wrap-angle.ts'
import { assumed } from '../assumptions.ts'
import { decayError, growthOf, readoutError, type SharedErrors, turningSeconds } from './shared.ts'
import type { Sights } from './sights.ts'
import type { SphereState } from './state.ts'

/** So many are looked at, the slowest first: more equal rates than that settle nothing. */
const most = 6

/**
 * States that even frames cannot tell from a given one, but for what rows and ticks add to the times: the same
 * axis, whole repeats more or fewer from frame to frame, every mark where it was in the first sighting.
 */
export function aliasesOf(sights: Sights, state: SphereState, maxRate: number): SphereState[] {
  const { marks, points, directions, framesPerSecond } = sights
  // A turn more a frame leaves a mark of any order where it was; a repeat more, one whose order all marks share.
  const order = marks.every(mark => mark.symmetryOrder === marks[0]!.symmetryOrder)
    ? marks[0]!.symmetryOrder
    : 1
  const spacing = (2 * Math.PI * framesPerSecond) / order
  const rate = length(state.rotation)
  const axis = unit(state.rotation)
  const first = [...points, ...directions].reduce((a, b) => (b.timeSeconds < a.timeSeconds ? b : a))
  const slowest = wrapAngle(rate, spacing)
  const rates: number[] = []
  for (let k = 0; k * spacing <= maxRate + Math.abs(slowest); k++) {
    for (const alias of k === 0 ? [slowest] : [slowest - k * spacing, slowest + k * spacing]) {
      if (Math.abs(alias) <= maxRate && Math.abs(alias - rate) > spacing / 2) rates.push(alias)
    }
  }
  return rates
    .sort((a, b) => Math.abs(a) - Math.abs(b))
    .slice(0, most)
    .flatMap(alias => readouts(sights, bentAs(state, rate / alias)).map(shared => ({ alias, shared })))
    .map(({ alias, shared }) => {
      const turnedRad = (w: number, errors: SharedErrors) =>
        w * turningSeconds(first, errors[readoutError]! * sights.readoutUncertaintySeconds, growthOf(errors))
      const back = rotationFromVector(scaled(axis, turnedRad(rate, state.shared) - turnedRad(alias, shared)))
      return {
        ...state,
        shared,
        rotation: scaled(axis, alias),
        places: state.places.map(place => turned(back, place)),
      }
    })
}

/** The same bend of the turning asks for a smaller share of a faster rate, and for a larger one of a slower. */
const bentAs = ({ shared }: SphereState, share: number): SharedErrors =>
  shared.map((own, k) => (k === decayError ? own * share : own))

/**
 * Shared errors to start from: an alias turns otherwise while the rows are read, so a readout that nobody knows
 * is tried at none, half and all of the frame's interval.
 */
function readouts(
  { readoutUncertaintySeconds, framesPerSecond }: Sights,
  shared: SharedErrors,
): SharedErrors[] {
  if (readoutUncertaintySeconds * framesPerSecond < 0.9 * assumed.readoutIntervalsUncertainty) return [shared]
  return [-1, 0, 1].map(error => shared.map((own, k) => (k === readoutError ? error : own)))
}
