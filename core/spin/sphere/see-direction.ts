import type { BallView } from '../../geometry/ball-view.ts'
import type { Motion } from './motion.ts'
import { placeError, readoutError, type SharedErrors, viewError } from './shared.ts'
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
  private readonly line = new Float64Array(2)
  private readonly lineByPlace = new Float64Array(6)
  private readonly byPlace = new Float64Array(3)

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
    const nominal = s.timeSeconds + late * s.rowShare
    motion.move(s.mark, nominal, 0, false)
    motion.carry(shared, placeError(s.mark))
    const p = motion.carried
    const rowsLater = s.radiusShare * p[1]!
    motion.move(s.mark, nominal + (readoutSeconds + late) * rowsLater, 0, true)
    const { u, speed } = motion
    const view = shared[viewError]!
    const [tx, ty] = this.lineOfSight(s, p, view)
    const [ux, uy, uz] = [u[0]!, u[1]!, u[2]!]
    const [a, b] = [ux - tx * uz, uy - ty * uz]
    const across = Math.max(a * a + b * b, 1e-12)
    this.bearingRad = Math.atan2(b, a)
    this.showing = Math.min(Math.sqrt(across), 1)
    byU[0] = -b / across
    byU[1] = a / across
    byU[2] = (b * tx - a * ty) / across
    const [byTx, byTy] = [(uz * b) / across, (-uz * a) / across]
    const perSecond = byU[0]! * speed[0]! + byU[1]! * speed[1]! + byU[2]! * speed[2]!
    for (let i = 0; i < 3; i++) byPlace[i] = byTx * lineByPlace[i]! + byTy * lineByPlace[3 + i]!
    byPlace[1]! += perSecond * (readoutSeconds + late) * s.radiusShare
    byShared.fill(0)
    byShared[viewError] = byTx * line[0]! + byTy * line[1]!
    byShared[readoutError] =
      readoutSpread * (perSecond * (s.rowShare + rowsLater) + s.rowShare * this.drift(motion))
    for (let k = 0; k < 3; k++) {
      this.byRotation[k] = along(byPlace, motion.carriedSlopes, 3 * k)
      byShared[placeError(s.mark) + k] = along(byPlace, motion.carriedSlopes, 9 + 3 * k)
    }
  }

  /** Tangents of the line of sight to the place; into `line` what they move by for the view, `lineByPlace` for the place. */
  private lineOfSight(
    { view, steeperView }: DirectionSight,
    p: Float64Array,
    share: number,
  ): readonly [number, number] {
    const { line, lineByPlace } = this
    const near = tangentsTo(view, p)
    const steep = view === steeperView ? near : tangentsTo(steeperView, p)
    line[0] = steep.x - near.x
    line[1] = steep.y - near.y
    lineByPlace.fill(0)
    lineByPlace[0] = (1 - share) * near.perRadius + share * steep.perRadius
    lineByPlace[4] = lineByPlace[0]
    lineByPlace[2] = -(1 - share) * near.perRadius * near.x - share * steep.perRadius * steep.x
    lineByPlace[5] = -(1 - share) * near.perRadius * near.y - share * steep.perRadius * steep.y
    return [near.x + share * line[0], near.y + share * line[1]]
  }

  /** What the bearing moves by a second as the place turns with the ball. */
  private drift({ axis, rate, carried: p }: Motion): number {
    const [x, y, z] = [axis[0]!, axis[1]!, axis[2]!]
    const [bx, by, bz] = [this.byPlace[0]!, this.byPlace[1]!, this.byPlace[2]!]
    return rate * (bx * (y * p[2]! - z * p[1]!) + by * (z * p[0]! - x * p[2]!) + bz * (x * p[1]! - y * p[0]!))
  }
}

const along = (a: Float64Array, b: Float64Array, at: number): number =>
  a[0]! * b[at]! + a[1]! * b[at + 1]! + a[2]! * b[at + 2]!

/** Tangents of the line of sight to a place on the ball, and what they move by for a radius across it. */
function tangentsTo(view: BallView | null, p: Float64Array): { x: number; y: number; perRadius: number } {
  if (!view) return { x: 0, y: 0, perRadius: 0 }
  const [x, y, z] = view.toBall
  const away = view.distanceRadii
  if (away === Number.POSITIVE_INFINITY) return { x: x / z, y: y / z, perRadius: 0 }
  const depth = away * z + p[2]!
  return { x: (away * x + p[0]!) / depth, y: (away * y + p[1]!) / depth, perRadius: 1 / depth }
}
