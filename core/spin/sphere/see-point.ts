import { project } from '../../geometry/ball-view.ts'
import type { Motion } from './motion.ts'
import {
  decayError,
  outlineBend,
  outlineDrift,
  outlineError,
  placeError,
  readoutError,
  type SharedErrors,
  turningByDecay,
  viewError,
} from './shared.ts'
import type { PointSight } from './sights.ts'

/**
 * Where the model sees one point, with all slopes: `x`, `y` are its offset from the outline's centre, px.
 * One object is used over and over.
 */
export class SightedPoint {
  x = 0
  y = 0
  /** ∂x/∂u and ∂y/∂u, u the mark's place. */
  readonly xByU = new Float64Array(3)
  readonly yByU = new Float64Array(3)
  /** ∂x and ∂y by the shared errors, in their order. */
  readonly xByShared: Float64Array
  readonly yByShared: Float64Array
  private readonly seen = new Float64Array(5)
  private readonly steeper = new Float64Array(5)

  constructor(markCount: number) {
    this.xByShared = new Float64Array(placeError(markCount))
    this.yByShared = new Float64Array(placeError(markCount))
  }

  /**
   * A point at the place that `motion` has it. The field of view moves it along the line between where the
   * likely and the steeper view show it; the readout moves it on its way and with the ball.
   */
  see(s: PointSight, motion: Motion, shared: SharedErrors, readoutSpread: number): void {
    const { seen, xByU, yByU, xByShared, yByShared } = this
    const r = s.view.outline.radiusPx
    const drift = s.lateShare
    const bend = (3 * drift * drift - 1) / 2
    const late = shared[readoutError]! * readoutSpread
    const grown = 1 + outlineErrorAt(shared, 2, drift, bend) - s.stretchPerSecond * late
    const view = shared[viewError]!
    project(s.view, motion.u, seen)
    let ex = seen[0]!
    let ey = seen[1]!
    let k = seen[2]!
    let kx = k * seen[3]!
    let ky = k * seen[4]!
    let byViewX = 0
    let byViewY = 0
    if (s.steeperView !== s.view && s.steeperView) {
      const steeper = this.steeper
      project(s.steeperView, motion.u, steeper)
      byViewX = steeper[0]! - ex
      byViewY = steeper[1]! - ey
      ex += view * byViewX
      ey += view * byViewY
      kx += view * (steeper[2]! * steeper[3]! - kx)
      ky += view * (steeper[2]! * steeper[4]! - ky)
      k += view * (steeper[2]! - k)
    }
    this.x = grown * ex + r * outlineErrorAt(shared, 0, drift, bend) + s.driftX * late
    this.y = grown * ey + r * outlineErrorAt(shared, 1, drift, bend) + s.driftY * late
    xByU[0] = grown * k
    xByU[1] = 0
    xByU[2] = -grown * kx
    yByU[0] = 0
    yByU[1] = grown * k
    yByU[2] = -grown * ky
    const speed = motion.speed
    xByShared[viewError] = grown * byViewX
    yByShared[viewError] = grown * byViewY
    const xPerSecond = xByU[0]! * speed[0]! + xByU[2]! * speed[2]!
    const yPerSecond = yByU[1]! * speed[1]! + yByU[2]! * speed[2]!
    xByShared[readoutError] = readoutSpread * (s.driftX - s.stretchPerSecond * ex + s.rowShare * xPerSecond)
    yByShared[readoutError] = readoutSpread * (s.driftY - s.stretchPerSecond * ey + s.rowShare * yPerSecond)
    const later = turningByDecay(s.timeSeconds)
    xByShared[decayError] = later * xPerSecond
    yByShared[decayError] = later * yPerSecond
    outlineSlopes(xByShared, outlineError, r, 0, ex)
    outlineSlopes(yByShared, outlineError, 0, r, ey)
    outlineSlopes(xByShared, outlineDrift, drift * r, 0, drift * ex)
    outlineSlopes(yByShared, outlineDrift, 0, drift * r, drift * ey)
    outlineSlopes(xByShared, outlineBend, bend * r, 0, bend * ex)
    outlineSlopes(yByShared, outlineBend, 0, bend * r, bend * ey)
  }
}

/** The outline's error along x (0), y (1) or in size (2), in shares of the radius. */
const outlineErrorAt = (shared: SharedErrors, k: number, drift: number, bend: number): number =>
  shared[outlineError + k]! + drift * shared[outlineDrift + k]! + bend * shared[outlineBend + k]!

function outlineSlopes(slopes: Float64Array, at: number, x: number, y: number, size: number): void {
  slopes[at] = x
  slopes[at + 1] = y
  slopes[at + 2] = size
}
