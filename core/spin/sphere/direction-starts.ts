import { scaled, type Vector } from '../../geometry/vector.ts'
import { halfSphereGrid } from './axis-grid.ts'
import { basinsOf, type Found, rateGrid, type Start } from './basins.ts'
import { type Agreement, bearingPlane, bestRun, leastMiss } from './run-of-line.ts'
import type { Sights } from './sights.ts'
import { TurnedProducts } from './turned-products.ts'
import { type Turning, turningTable } from './turning.ts'

const axes = halfSphereGrid(90)

/**
 * Wide search from bearings alone: all rates on a grid about all axes on another. Given both, the vector
 * that agrees best with a mark's bearings is an eigenvector (see run-of-line.ts), so nothing else is
 * searched. All local minima over the rate come back, best first, neighbours merged.
 */
export function startsFromDirections(sights: Sights, maxRate: number, most: number): Start[] {
  const { step, count } = rateGrid(sights, maxRate)
  const bearings = sights.marks.map((_, mark) => bearingsOf(sights, mark, step, count))
  const found: Found[] = []
  for (const axis of axes) {
    const misses = missesAbout(bearings, axis, count)
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

/** One mark's bearings, and what each turns by as the rate goes up by one step of the grid. */
type OwnBearings = { count: number; products: TurnedProducts; turning: Turning }

function bearingsOf({ directions }: Sights, mark: number, step: number, count: number): OwnBearings {
  const own = directions.filter(s => s.mark === mark)
  const stepRad = Float64Array.from(own, s => step * s.timeSeconds)
  return {
    count: own.length,
    products: new TurnedProducts(own.map(bearingPlane)),
    turning: turningTable(stepRad, count + 1),
  }
}

const nothingYet = (): Agreement => ({ across: new Float64Array(6), ahead: new Float64Array(6) })

/** Least miss of all marks at the rates −count·step … count·step about one axis. */
function missesAbout(marks: OwnBearings[], axis: Vector, count: number): Float64Array {
  const misses = new Float64Array(2 * count + 1)
  const [forwards, backwards] = [nothingYet(), nothingYet()]
  for (const own of marks) {
    own.products.about(axis)
    for (let k = 0; k <= count; k++) {
      own.products.sumUp(own.turning, k, forwards, backwards)
      misses[count + k]! += own.count * leastMiss(forwards, own.count)
      if (k > 0) misses[count - k]! += own.count * leastMiss(backwards, own.count)
    }
  }
  return misses
}
