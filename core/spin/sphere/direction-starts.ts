import { cross, dot, scaled, sum, type Vector } from '../../geometry/vector.ts'
import { halfSphereGrid } from './axis-grid.ts'
import { basinsOf, type Found, rateGrid, type Start } from './basins.ts'
import { type Agreement, addProduct, bearingPlane, bestRun, leastMiss } from './run-of-line.ts'
import type { Sights } from './sights.ts'

const axes = halfSphereGrid(90)

/**
 * Wide search from bearings alone: all rates on a grid about all axes on another. Given both, the vector
 * that agrees best with a mark's bearings is an eigenvector (see run-of-line.ts), so nothing else is
 * searched. All local minima over the rate come back, best first, neighbours merged.
 */
export function startsFromDirections(sights: Sights, maxRate: number, most: number): Start[] {
  const { step, count } = rateGrid(sights, maxRate)
  const found: Found[] = []
  for (const axis of axes) {
    const misses = missesAbout(sights, axis, step, count)
    for (let k = 1; k < misses.length - 1; k++) {
      const score = misses[k]!
      if (score > misses[k - 1]! || score >= misses[k + 1]!) continue
      found.push({ axis, rate: (k - count) * step, score })
    }
  }
  const none = Number.POSITIVE_INFINITY
  return basinsOf(found, sights.spanSeconds, 4 * most, () => none)
    .map(({ axis, rate }): Start => {
      const rotation = scaled(axis, rate)
      const runs = sights.marks.map((_, mark) => bestRun(sights, mark, rotation))
      const score = runs.reduce((total, one) => total + one.score, 0)
      return { rotation, places: runs.map(one => one.run), score }
    })
    .sort((a, b) => a.score - b.score)
    .slice(0, most)
}

/** Least miss of all marks at the rates −count·step … count·step about one axis. */
function missesAbout(sights: Sights, axis: Vector, step: number, count: number): Float64Array {
  const { directions, marks } = sights
  const misses = new Float64Array(2 * count + 1)
  const agreement: Agreement = { across: new Float64Array(6), ahead: new Float64Array(6) }
  marks.forEach((_, mark) => {
    const own = directions
      .filter(s => s.mark === mark)
      .map(s => {
        const plane = bearingPlane(s)
        return {
          timeSeconds: s.timeSeconds,
          across: split(axis, plane.across),
          ahead: split(axis, plane.ahead),
        }
      })
    for (let k = 0; k < misses.length; k++) {
      agreement.across.fill(0)
      agreement.ahead.fill(0)
      for (const s of own) {
        const angle = (k - count) * step * s.timeSeconds
        const cos = Math.cos(angle)
        const sin = Math.sin(angle)
        addTurnedBack(agreement.across, s.across, cos, sin)
        addTurnedBack(agreement.ahead, s.ahead, cos, sin)
      }
      misses[k]! += own.length * leastMiss(agreement, own.length)
    }
  })
  return misses
}

/** A vector in the parts that a turn about the axis leaves alone, keeps with cos and mixes in with sin. */
type Split = { along: Vector; across: Vector; beside: Vector }

function split(axis: Vector, v: Vector): Split {
  const along = scaled(axis, dot(axis, v))
  return { along, across: sum(v, scaled(along, -1)), beside: cross(axis, v) }
}

/** Adds the products of Rᵀv = along + cos·across − sin·beside. */
function addTurnedBack(sums: Float64Array, { along, across, beside }: Split, cos: number, sin: number): void {
  addProduct(
    sums,
    along[0] + cos * across[0] - sin * beside[0],
    along[1] + cos * across[1] - sin * beside[1],
    along[2] + cos * across[2] - sin * beside[2],
  )
}
