import type { Vector } from '../../geometry/vector.ts'
import type { ResidualModel } from '../../numerics/levenberg-marquardt.ts'
import { wrapAngle } from '../../numerics/wrap-angle.ts'
import { assumed } from '../assumptions.ts'
import { Motion } from './motion.ts'
import { SightedDirection } from './see-direction.ts'
import { SightedPoint } from './see-point.ts'
import {
  decayError,
  growthOf,
  noSharedErrors,
  openErrors,
  readoutError,
  type SharedErrors,
  turningSeconds,
} from './shared.ts'
import type { HiddenSight, PointSight, Sights } from './sights.ts'

/**
 * How far each residual is trusted: what an error is multiplied by to have unit variance.
 * `points` holds a symmetric 2 × 2 matrix (xx, xy, yy) a point, 1/px; `directions` a factor each, 1/px of
 * arc; `oneSided` 1/px; `shared` for what sightings have wrong together, see `sharedTrust`.
 */
export type Whitening = {
  points: Float64Array
  directions: Float64Array
  oneSided: number
  shared: number[]
}

export type SphereModel = {
  fill: ResidualModel
  parameterCount: number
  residualCount: number
  /** Which shared errors are unknowns; they stand last, in this order. */
  open: number[]
  sharedOf: (parameters: Float64Array) => SharedErrors
}

/** Holds the length of the rotation vector at a rate: how far the fit gets worse tells how well it is known. */
export type HeldRate = { rateRadPerSecond: number; trust: number }

/** Rows of a point: x, y, and one that forbids it to be behind the rim. */
export const rowsOfPoint = 3
/** A mark may be called hidden when it is this close to the rim (height over it, in radii; about 15°). */
const rimMargin = 0.26

/**
 * The sphere fit's residuals, model minus seen, and their slopes.
 *
 * Unknowns, in order: the rotation vector (rad/s, camera axes); two tangent steps for each mark's place at
 * time 0; the shared errors. `repeats` turns each point by whole repeats of its mark about the axis.
 *
 * A point's error is its distance in the picture, px. A direction is a body-fixed vector, be it the place
 * of a mark or the run of a line, of which the picture shows the bearing; its error is an arc along the
 * rim, px. A mark that was seen cannot be behind the rim, one that was hidden not clearly in front of it.
 */
export function sphereModel(
  sights: Sights,
  places: Vector[],
  repeats: Int32Array,
  whitening: Whitening,
  held: HeldRate | null = null,
): SphereModel {
  const { points, directions, hidden, marks, readoutSeconds, readoutUncertaintySeconds } = sights
  const motion = new Motion(places)
  const point = new SightedPoint(marks.length)
  const direction = new SightedDirection(marks.length)
  const sharedAt = 3 + 2 * marks.length
  const open = openErrors(whitening.shared)
  const rows = new Rows(motion, sharedAt, open, readoutUncertaintySeconds)
  const repeatRad = points.map((s, i) => (2 * Math.PI * repeats[i]!) / marks[s.mark]!.symmetryOrder)
  const repeatOfDirections = directions.map(s => (2 * Math.PI) / marks[s.mark]!.symmetryOrder)

  const sharedAmong = (parameters: Float64Array, shared: number[]): SharedErrors => {
    for (let i = 0; i < open.length; i++) shared[open[i]!] = parameters[sharedAt + i]!
    return shared
  }
  const shared: number[] = [...noSharedErrors(marks.length)]
  const fill: ResidualModel = (parameters, residuals, jacobian) => {
    motion.set(parameters)
    rows.begin(residuals, jacobian)
    sharedAmong(parameters, shared)
    const late = shared[readoutError]! * readoutUncertaintySeconds
    const growth = growthOf(shared)
    for (let i = 0; i < points.length; i++) {
      const s = points[i]!
      motion.move(s.mark, turningSeconds(s, late, growth), repeatRad[i]!, true)
      point.see(s, motion, shared, readoutUncertaintySeconds)
      const dx = point.x - (s.xPx - s.view.outline.xPx)
      const dy = point.y - (s.yPx - s.view.outline.yPx)
      const xx = whitening.points[3 * i]!
      const xy = whitening.points[3 * i + 1]!
      const yy = whitening.points[3 * i + 2]!
      rows.addPoint(s.mark, xx * dx + xy * dy, point, xx, xy)
      rows.addPoint(s.mark, xy * dx + yy * dy, point, xy, yy)
      rows.addOneSided(s, -1, 0, whitening.oneSided)
    }
    for (let i = 0; i < directions.length; i++) {
      const s = directions[i]!
      direction.see(s, motion, shared, readoutSeconds, readoutUncertaintySeconds)
      const w = s.radiusPx * whitening.directions[i]!
      const off = wrapAngle(direction.bearingRad - s.bearingRad, repeatOfDirections[i])
      rows.addDirection(s.mark, w * off, direction, w)
    }
    for (const h of hidden) {
      motion.move(h.mark, turningSeconds(h, late, growth), 0, false)
      rows.addOneSided(h, 1, rimMargin, whitening.oneSided)
    }
    for (const k of open) rows.addHeld(k, whitening.shared[k]!, shared[k]!)
    if (held) rows.addRate(held)
  }
  return {
    fill,
    parameterCount: rows.width,
    residualCount:
      rowsOfPoint * points.length + directions.length + hidden.length + open.length + (held ? 1 : 0),
    open,
    sharedOf: parameters => sharedAmong(parameters, [...noSharedErrors(marks.length)]),
  }
}

/** Writes residuals and their slopes one row after another. */
class Rows {
  readonly width: number
  private residuals: Float64Array = new Float64Array(0)
  private jacobian: Float64Array = new Float64Array(0)
  private row = 0
  constructor(
    private readonly motion: Motion,
    private readonly sharedAt: number,
    private readonly open: number[],
    private readonly readoutSpread: number,
  ) {
    this.width = sharedAt + open.length
  }

  begin(residuals: Float64Array, jacobian: Float64Array): void {
    this.residuals = residuals
    this.jacobian = jacobian
    this.row = 0
    jacobian.fill(0)
  }

  /** A row whose residual changes by wx·dx + wy·dy of where the point is sighted. */
  addPoint(mark: number, residual: number, s: SightedPoint, wx: number, wy: number): void {
    this.slopes(
      mark,
      wx * s.xByU[0]! + wy * s.yByU[0]!,
      wx * s.xByU[1]! + wy * s.yByU[1]!,
      wx * s.xByU[2]! + wy * s.yByU[2]!,
    )
    const at = this.row * this.width + this.sharedAt
    for (let i = 0; i < this.open.length; i++) {
      const k = this.open[i]!
      this.jacobian[at + i] = wx * s.xByShared[k]! + wy * s.yByShared[k]!
    }
    this.residuals[this.row++] = residual
  }

  /** A row whose residual changes by w times the bearing. */
  addDirection(mark: number, residual: number, s: SightedDirection, w: number): void {
    this.slopes(mark, w * s.byU[0]!, w * s.byU[1]!, w * s.byU[2]!)
    const at = this.row * this.width
    for (let k = 0; k < 3; k++) this.jacobian[at + k]! += w * s.byRotation[k]!
    for (let i = 0; i < this.open.length; i++) {
      this.jacobian[at + this.sharedAt + i] = w * s.byShared[this.open[i]!]!
    }
    this.residuals[this.row++] = residual
  }

  /** By how far a mark is on the wrong side of the rim; `side` is 1 where it must be behind, −1 in front. */
  addOneSided(s: PointSight | HiddenSight, side: 1 | -1, margin: number, trust: number): void {
    const { toBall, distanceRadii, outline } = s.view
    const u = this.motion.u
    const height = -(u[0]! * toBall[0] + u[1]! * toBall[1] + u[2]! * toBall[2]) - 1 / distanceRadii
    const wrongBy = side * height - margin
    const w = trust * outline.radiusPx
    if (wrongBy > 0) {
      this.motion.findSlopes()
      this.slopes(s.mark, -side * w * toBall[0], -side * w * toBall[1], -side * w * toBall[2])
      const speed = this.motion.speed
      const fall = -side * w * (speed[0]! * toBall[0] + speed[1]! * toBall[1] + speed[2]! * toBall[2])
      this.addLater(readoutError, fall * s.rowShare * this.readoutSpread)
      this.addLater(decayError, (fall * assumed.decayPerSecond * s.timeSeconds ** 2) / 2)
    }
    this.residuals[this.row++] = wrongBy > 0 ? w * wrongBy : 0
  }

  /** What the row answers to a shared error that delays the turning, if it is an unknown. */
  private addLater(k: number, slope: number): void {
    const at = this.open.indexOf(k)
    if (at >= 0) this.jacobian[this.row * this.width + this.sharedAt + at] = slope
  }

  /** A shared error held at 0. */
  addHeld(k: number, trust: number, error: number): void {
    this.jacobian[this.row * this.width + this.sharedAt + this.open.indexOf(k)] = trust
    this.residuals[this.row++] = trust * error
  }

  /** The rate held. */
  addRate({ rateRadPerSecond, trust }: HeldRate): void {
    const { axis, rate } = this.motion
    for (let k = 0; k < 3; k++) this.jacobian[this.row * this.width + k] = trust * axis[k]!
    this.residuals[this.row++] = trust * (rate - rateRadPerSecond)
  }

  /** Slopes of a residual that changes by (gx, gy, gz)·du, u the mark's place. */
  private slopes(mark: number, gx: number, gy: number, gz: number): void {
    const { jacobian, motion } = this
    const s = motion.slopes
    const at = this.row * this.width
    for (let k = 0; k < 5; k++) {
      jacobian[at + (k < 3 ? k : k + 2 * mark)] = gx * s[3 * k]! + gy * s[3 * k + 1]! + gz * s[3 * k + 2]!
    }
  }
}
