import { dot, tangents, unit, type Vector } from '../../geometry/vector.ts'
import { growthOf, readoutError, turningSeconds } from './shared.ts'
import type { Sights } from './sights.ts'
import type { SphereState } from './state.ts'

/**
 * By how many whole repeats of its mark each point stands ahead of where a rotation puts the mark's first
 * likeness. A mark of order m looks the same after 1/m turn about the spin axis: m equal dots around it.
 */
export function nearestRepeats(
  { points, marks, readoutUncertaintySeconds }: Sights,
  { rotation, places, shared }: Omit<SphereState, 'repeats'>,
): Int32Array {
  const repeats = new Int32Array(points.length)
  if (marks.every(mark => mark.symmetryOrder === 1)) return repeats
  const late = shared[readoutError]! * readoutUncertaintySeconds
  const growth = growthOf(shared)
  const rate = Math.hypot(...rotation)
  const [e1, e2] = tangents(rate > 0 ? unit(rotation) : [0, 0, 1])
  const longitude = (v: Vector) => Math.atan2(dot(v, e2), dot(v, e1))
  points.forEach((s, i) => {
    const ahead = longitude(s.place) - longitude(places[s.mark]!) - rate * turningSeconds(s, late, growth)
    repeats[i] = Math.round((ahead * marks[s.mark]!.symmetryOrder) / (2 * Math.PI))
  })
  return repeats
}
