import type { Outline } from '../../contract/marks.ts'
import { choleskyFactor, choleskySolve } from '../../numerics/cholesky.ts'
import { median } from '../../numerics/median.ts'
import { robustWeight } from '../../numerics/robust-weight.ts'

export type RimPoint = { x: number; y: number }
export type CircleFit = { outline: Outline; scatterPx: number; inliers: number }

/**
 * The circle through points of a rim, some of which are not on it: least squares of the distances, Gauss–Newton
 * from a start, weights by Hampel's loss. `radiusPrior` holds the radius where the points say little of it.
 */
export function circleFit(
  points: readonly RimPoint[],
  start: Outline,
  radiusPrior: { radiusPx: number; uncertaintyPx: number } | null,
): CircleFit | null {
  if (points.length < 8) return null
  let { xPx, yPx, radiusPx } = start
  let scale = Number.POSITIVE_INFINITY
  let inliers = 0
  for (let round = 0; round < 12; round++) {
    const left = points.map(p => Math.hypot(p.x - xPx, p.y - yPx) - radiusPx)
    const spread = Math.max(1.4826 * median(left.map(Math.abs)), 0.12)
    scale = round < 4 ? Math.max(spread, 0.02 * radiusPx) : spread
    const normal = new Float64Array(9)
    const pull = new Float64Array(3)
    inliers = 0
    points.forEach((p, k) => {
      const weight = robustWeight(left[k]!, scale, 2)
      if (weight > 0.5) inliers++
      const distance = Math.hypot(p.x - xPx, p.y - yPx)
      const row = [-(p.x - xPx) / distance, -(p.y - yPx) / distance, -1]
      for (let a = 0; a < 3; a++) {
        pull[a]! -= weight * row[a]! * left[k]!
        for (let b = 0; b < 3; b++) normal[3 * a + b]! += weight * row[a]! * row[b]!
      }
    })
    if (radiusPrior) {
      const weight = (scale / radiusPrior.uncertaintyPx) ** 2
      normal[8]! += weight
      pull[2]! += weight * (radiusPrior.radiusPx - radiusPx)
    }
    if (!choleskyFactor(normal, 3)) return null
    choleskySolve(normal, 3, pull)
    xPx += pull[0]!
    yPx += pull[1]!
    radiusPx += pull[2]!
    if (!(radiusPx > 1 && Number.isFinite(xPx + yPx + radiusPx))) return null
    if (round > 5 && Math.hypot(pull[0]!, pull[1]!, pull[2]!) < 1e-3) break
  }
  return { outline: { xPx, yPx, radiusPx }, scatterPx: scale, inliers }
}
