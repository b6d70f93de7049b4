import type { BallView } from '../../geometry/ball-view.ts'
import type { Motion } from './motion.ts'
import {
  decayError,
  growthOf,
  placeError,
  readoutError,
  type SharedErrors,
  turningByDecay,
  turningSeconds,
  viewError,
} from './shared.ts'
import type { DirectionSight } from './sights.ts'

/**
 * Where the model sees one direction, with all slopes. One object is used over and over.
 *
 * The picture of an arrow u on the ball, at the place p of the ball (radii from its middle), runs at the bearing
 * atan2(u_y − q_y·u_z, u_x − q_x·u_z), with q = (X/Z, Y/Z) the tangents of the line of sight to that place:
 * the pinhole x = F·X/Z moves by F·(dX − q·dZ)/Z. The place also says in which row, and so how much later than
 * the ball's middle, the arrow was read. Of a direction alone it is not known: p is an unknown of the fit
 * (`placeError`), 0 the middle of the ball. Where the direction is a mark's own bearing about that middle, p lies
 * along u and changes nothing.
 */
export class SightedDirection {
  /** The bearing, and how long the arrow looks, 1 at most. */
  bearingRad = 0
  showing = 0
  /** ∂bearing/∂u. */
  readonly byU = new Float64Array(3)
  /** What the bearing moves by through the place p, for the rotation vector. */
  readonly byRotation = new Float64Array(3)
  readonly byShared: Float64Array
  /** Tangents of the line of sight to the place. */
  private readonly sight = new Float64Array(2)
  private readonly line = new Float64Array(2)
  private readonly lineByPlace = new Float64Array(6)
  private readonly byPlace = new Float64Array(3)
  private readonly near = new Float64Array(3)
  private readonly steep = new Float64Array(3)

  constructor(markCount: number) {
    this.byShared = new Float64Array(placeError(markCount))
  }

  see(
    s: DirectionSight,
    motion: Motion,
    shared: SharedErrors,
    readoutSeconds: number,
    readoutSpread: number,
  ) {
    const { byU, byShared, byPlace, line, lineByPlace } = this
    const late = shared[readoutError]! * readoutSpread
    const nominal = turningSeconds(s, late, growthOf(shared))
    motion.move(s.mark, nominal, 0, false)
    motion.carry(shared, placeError(s.mark))
    const p = motion.carried
    const rowsLater = s.radiusShare * p[1]!
    motion.move(s.mark, nominal + (readoutSeconds + late) * rowsLater, 0, true)
    const { u, speed } = motion
    const view = shared[viewError]!
    this.lookAlong(s, p, view)
    const tx = this.sight[0]!
    const ty = this.sight[1]!
    const uz = u[2]!
    const a = u[0]! - tx * uz
    const b = u[1]! - ty * uz
    const across = Math.max(a * a + b * b, 1e-12)
    this.bearingRad = Math.atan2(b, a)
    this.showing = Math.min(Math.sqrt(across), 1)
    byU[0] = -b / across
    byU[1] = a / across
    byU[2] = (b * tx - a * ty) / across
    const byTx = (uz * b) / across
    const byTy = (-uz * a) / across
    const perSecond = byU[0]! * speed[0]! + byU[1]! * speed[1]! + byU[2]! * speed[2]!
    for (let i = 0; i < 3; i++) byPlace[i] = byTx * lineByPlace[i]! + byTy * lineByPlace[3 + i]!
    byPlace[1]! += perSecond * (readoutSeconds + late) * s.radiusShare
    byShared.fill(0)
    byShared[viewError] = byTx * line[0]! + byTy * line[1]!
    const drift = this.drift(motion)
    byShared[readoutError] = readoutSpread * (perSecond * (s.rowShare + rowsLater) + s.rowShare * drift)
    byShared[decayError] = turningByDecay(s.timeSeconds) * (perSecond + drift)
    for (let k = 0; k < 3; k++) {
      this.byRotation[k] = along(byPlace, motion.carriedSlopes, 3 * k)
      byShared[placeError(s.mark) + k] = along(byPlace, motion.carriedSlopes, 9 + 3 * k)
    }
  }

  /** Finds the tangents of the line of sight to the place, and what they move by for the view and the place. */
  private lookAlong({ view, steeperView }: DirectionSight, p: Float64Array, share: number): void {
    const { sight, line, lineByPlace, near } = this
    tangentsTo(view, p, near)
    const steep = view === steeperView ? near : this.steep
    if (steep !== near) tangentsTo(steeperView, p, steep)
    for (let i = 0; i < 2; i++) {
      line[i] = steep[i]! - near[i]!
      sight[i] = near[i]! + share * line[i]!
      lineByPlace[4 * i] = (1 - share) * near[2]! + share * steep[2]!
      lineByPlace[3 * i + 2] = -(1 - share) * near[2]! * near[i]! - share * steep[2]! * steep[i]!
    }
  }

  /** What the bearing moves by a second as the place turns with the ball. */
  private drift({ axis, rate, carried: p }: Motion): number {
    const { byPlace } = this
    const x = axis[0]!
    const y = axis[1]!
    const z = axis[2]!
    return (
      rate *
      (byPlace[0]! * (y * p[2]! - z * p[1]!) +
        byPlace[1]! * (z * p[0]! - x * p[2]!) +
        byPlace[2]! * (x * p[1]! - y * p[0]!))
    )
  }
}

const along = (a: Float64Array, b: Float64Array, at: number): number =>
  a[0]! * b[at]! + a[1]! * b[at + 1]! + a[2]! * b[at + 2]!

/** Tangents (x, y) of the line of sight to a place on the ball, and what they move by for a radius across it, into `out`. */
function tangentsTo(view: BallView | null, p: Float64Array, out: Float64Array): void {
  out.fill(0)
  if (!view) return
  const { toBall, distanceRadii: away } = view
  const isFar = away === Number.POSITIVE_INFINITY
  const depth = isFar ? toBall[2] : away * toBall[2] + p[2]!
  out[0] = (isFar ? toBall[0] : away * toBall[0] + p[0]!) / depth
  out[1] = (isFar ? toBall[1] : away * toBall[1] + p[1]!) / depth
  out[2] = isFar ? 0 : 1 / depth
}
