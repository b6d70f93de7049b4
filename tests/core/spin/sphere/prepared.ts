import type { Observations } from '../../../../core/spin/observations.ts'
import { observationsOf } from '../../../../core/spin/observations-of.ts'
import { noSharedErrors } from '../../../../core/spin/sphere/shared.ts'
import { type Sights, sightsOf } from '../../../../core/spin/sphere/sights.ts'
import type { SphereState } from '../../../../core/spin/sphere/state.ts'
import type { SimulatedHit } from '../../../bench/simulate/hit.ts'
import { bodyAt } from '../../../bench/simulate/scene.ts'

export type Prepared = { hit: SimulatedHit; observations: Observations; sights: Sights; state: SphereState }

/** A simulated hit as the sphere fit sees it, with the state that is true; null where too little was seen. */
export function preparedOf(hit: SimulatedHit): Prepared | null {
  const observed = observationsOf(hit.document)
  if ('measured' in observed) return null
  const { observations } = observed
  const sights = sightsOf(observations)
  if (sights.points.length + sights.directions.length < 6) return null
  const places = sights.marks.map(({ mark }) => {
    const { along, place } = hit.scene.marks[mark]!
    return bodyAt(hit.scene, along ?? place, sights.originSeconds)
  })
  const repeats = new Int32Array(sights.points.length)
  const state = { rotation: hit.scene.spin, places, repeats, shared: noSharedErrors(places.length) }
  return { hit, observations, sights, state }
}
