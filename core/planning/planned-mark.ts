import type { PlannedMark, PlanSetUp } from '../contract/plan.ts'
import { rotationFromVector, turned } from '../geometry/rotation.ts'
import { scaled, type Vector } from '../geometry/vector.ts'
import { radOfDeg } from '../units/angle.ts'

/** A mark on the ball at time 0: its place, and for a direction the way it runs; unit vectors, camera axes. */
export type BallMark = { id: string; symmetryOrder: number; place: Vector; run: Vector | null }

export const symmetryOrderOf = (mark: PlannedMark): number => (mark === 'line' ? 2 : 1)

/** A mark this close to the rim (height over it, in radii) is too foreshortened to be clicked: common practice, no source. */
const showsFrom = 0.15
/** Towards which bearing a tilted axis leans: half way between along the flight and across it. */
const leanRad = radOfDeg(45)

/** The spin axis, clockwise as the camera sees it; z away from the camera. */
export const axisOf = ({ axisTiltDeg }: Pick<PlanSetUp, 'axisTiltDeg'>): Vector => {
  const tilt = radOfDeg(axisTiltDeg)
  const across = Math.sin(tilt)
  return [across * Math.cos(leanRad), across * Math.sin(leanRad), Math.cos(tilt)]
}

/** The marks of a set-up, the first of them `startRad` on its way round. */
export function ballMarksOf(setUp: PlanSetUp, startRad: number): BallMark[] {
  const axis = axisOf(setUp)
  const pole = scaled(axis, -1)
  const lean: Vector = [Math.sin(leanRad), -Math.cos(leanRad), 0]
  const zero = turned(rotationFromVector(scaled(lean, radOfDeg(setUp.markFromAxisDeg))), pole)
  const at = (rad: number, v: Vector) => turned(rotationFromVector(scaled(axis, rad)), v)
  const isDirection = setUp.mark === 'arrow' || setUp.mark === 'line'
  const symmetryOrder = symmetryOrderOf(setUp.mark)
  const starts = setUp.mark === 'two-dots' ? [startRad, startRad + Math.PI / 2] : [startRad]
  return starts.map((start, i) => ({
    id: `${isDirection ? setUp.mark : 'dot'} ${i + 1}`,
    symmetryOrder,
    place: at(start, zero),
    run: isDirection ? at(start, lean) : null,
  }))
}

/** True where a mark with this place can be clicked; `heightOverRim` in radii. */
export const shows = (heightOverRim: number): boolean => heightOverRim >= showsFrom

/**
 * Part of a turn for which the mark shows, seen from far away: its height over the rim on a turn φ is
 * cos β·cos θ + sin β·sin θ·cos φ, β the axis's tilt and θ the mark's angle from it.
 */
export function visiblePartOf({ axisTiltDeg, markFromAxisDeg }: PlanSetUp): number {
  const [tilt, from] = [radOfDeg(axisTiltDeg), radOfDeg(markFromAxisDeg)]
  const middle = Math.cos(tilt) * Math.cos(from)
  const swing = Math.sin(tilt) * Math.sin(from)
  const cosine = (showsFrom - middle) / Math.max(swing, 1e-9)
  return Math.acos(Math.min(Math.max(cosine, -1), 1)) / Math.PI
}
