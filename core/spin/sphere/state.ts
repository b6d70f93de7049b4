import type { Vector } from '../../geometry/vector.ts'
import { wrapAngle } from '../../numerics/wrap-angle.ts'
import { Motion } from './motion.ts'
import { SightedDirection } from './see-direction.ts'
import { SightedPoint } from './see-point.ts'
import { growthOf, readoutError, type SharedErrors, turningSeconds } from './shared.ts'
import type { Sights } from './sights.ts'

/** Everything that says where each mark is seen at each time. */
export type SphereState = {
  rotation: Vector
  /** Unit vectors, one a mark of `Sights.marks`, at time 0. */
  places: Vector[]
  /** By how many whole repeats of its mark each point is turned about the axis. */
  repeats: Int32Array
  shared: SharedErrors
}

/** What was seen against where a state has it: one entry a point, then one a direction, of `Sights`. */
export type Misfit = {
  /** Seen minus modelled, px; of a direction the arc along the rim, `y` 0. */
  x: Float64Array
  y: Float64Array
  /** The way of the mark, px for a radian of turn; of a direction the arc, `wayY` 0. */
  wayX: Float64Array
  wayY: Float64Array
  /**
   * How long a direction looks against its whole length, 1 to nearly 0 where it points at the camera: its
   * arc is worse by 1/showing. 1 for points.
   */
  showing: Float64Array
}

/** A line that looks shorter than this is taken to be this long: nobody would judge it any shorter. */
export const leastShowing = 0.2

/** A motion that has the marks where the state has them. */
export function motionOf({ rotation, places }: SphereState): Motion {
  const motion = new Motion(places)
  const parameters = new Float64Array(3 + 2 * places.length)
  parameters.set(rotation)
  motion.set(parameters)
  return motion
}

/** Compares all points, then all directions, with a state. */
export function misfitOf(sights: Sights, state: SphereState): Misfit {
  const { points, directions, marks, readoutSeconds, readoutUncertaintySeconds: spread } = sights
  const column = () => new Float64Array(points.length + directions.length)
  const misfit: Misfit = {
    x: column(),
    y: column(),
    wayX: column(),
    wayY: column(),
    showing: column().fill(1),
  }
  const motion = motionOf(state)
  const rate = Math.max(Math.hypot(...state.rotation), 1e-9)
  const point = new SightedPoint(marks.length)
  const direction = new SightedDirection(marks.length)
  const late = state.shared[readoutError]! * spread
  const growth = growthOf(state.shared)
  const along = (byU: Float64Array) =>
    (byU[0]! * motion.speed[0]! + byU[1]! * motion.speed[1]! + byU[2]! * motion.speed[2]!) / rate
  points.forEach((s, i) => {
    const repeat = (2 * Math.PI * state.repeats[i]!) / marks[s.mark]!.symmetryOrder
    motion.move(s.mark, turningSeconds(s, late, growth), repeat, false)
    point.see(s, motion, state.shared, spread)
    misfit.x[i] = s.xPx - s.view.outline.xPx - point.x
    misfit.y[i] = s.yPx - s.view.outline.yPx - point.y
    misfit.wayX[i] = along(point.xByU)
    misfit.wayY[i] = along(point.yByU)
  })
  directions.forEach((s, j) => {
    const i = points.length + j
    direction.see(s, motion, state.shared, readoutSeconds, spread)
    const repeat = (2 * Math.PI) / marks[s.mark]!.symmetryOrder
    misfit.x[i] = s.radiusPx * wrapAngle(s.bearingRad - direction.bearingRad, repeat)
    misfit.wayX[i] = s.radiusPx * along(direction.byU)
    misfit.showing[i] = Math.max(direction.showing, leastShowing)
  })
  return misfit
}
