import { dot, scaled, sum, tangents, type Vector } from '../../geometry/vector.ts'
import { symmetricEigen } from '../../numerics/symmetric-eigen.ts'
import { halfSphereGrid } from './axis-grid.ts'
import { basinsOf, type Found, rateGrid, type Start } from './basins.ts'
import { bestRun } from './run-of-line.ts'
import type { PointSight, Sights } from './sights.ts'
import { type Turning, turningTable } from './turning.ts'

const axes = halfSphereGrid(220)
/**
 * Wide search over axes and rates from points alone. About its axis every mark keeps its latitude, and its
 * longitude runs with the rate. So each axis of a grid is first judged by how well latitudes keep (those
 * that cannot be the axis fall out at once), then each rate by the resultant length of the longitudes
 * turned back, both senses in one pass. All local minima come back, best first, neighbours merged.
 */
export function startsFromPoints(sights: Sights, maxRate: number, most: number): Start[] {
  const { points, marks } = sights
  const { step: rateStep, count } = rateGrid(sights, maxRate)
  const rateCount = count + 1
  const byMark = sortedByMark(sights)
  const turning = turningTable(
    Float64Array.from(byMark.sorted, s => rateStep * s.timeSeconds * marks[s.mark]!.symmetryOrder),
    rateCount,
  )
  const found: Found[] = []
  const forwards = new Float64Array(rateCount)
  const backwards = new Float64Array(rateCount)
  for (const { axis, latitudeScatter } of likelyAxes(points, marks.length)) {
    longitudeScatter(byMark, marks, axis, turning, forwards, backwards)
    const scoreAt = (k: number) => (k >= 0 ? forwards[k]! : backwards[-k]!)
    for (let k = 1 - count; k < count; k++) {
      const here = scoreAt(k)
      if (here <= scoreAt(k - 1) && here < scoreAt(k + 1)) {
        found.push({ axis, rate: k * rateStep, score: latitudeScatter + here })
      }
    }
  }
  const hopeless = (best: number) => 4 * best + offGrid * points.length
  const kept = basinsOf(found, sights.spanSeconds, most, hopeless)
  return kept.map(({ axis, rate, score }) => ({
    rotation: scaled(axis, rate),
    places: placesAtStart(sights, axis, rate),
    score,
  }))
}

/**
 * What a sighting may add to the score of the true start beyond scatter, of which the best score tells: the
 * grid puts a start off by up to 7° of axis and 22° of turn at the ends, 0.02 on average; four times that.
 */
const offGrid = 0.08

/** The axes about which the latitudes of the marks keep well enough; the best one exactly. */
function likelyAxes(points: PointSight[], markCount: number): { axis: Vector; latitudeScatter: number }[] {
  const scatter = new Float64Array(9)
  let weights = 0
  for (let mark = 0; mark < markCount; mark++) {
    const own = points.filter(s => s.mark === mark)
    if (own.length === 0) continue
    const weight = own.reduce((total, s) => total + s.weight, 0)
    weights += weight
    const mean = [0, 1, 2].map(i => own.reduce((total, s) => total + s.weight * s.place[i]!, 0) / weight)
    for (const s of own) {
      const away = s.place.map((x, i) => x - mean[i]!)
      for (let i = 0; i < 9; i++) scatter[i]! += s.weight * away[Math.floor(i / 3)]! * away[i % 3]!
    }
  }
  const { values, vectors } = symmetricEigen(scatter, 3)
  const scatterAbout = ([x, y, z]: Vector) =>
    scatter[0]! * x * x +
    scatter[4]! * y * y +
    scatter[8]! * z * z +
    2 * (scatter[1]! * x * y + scatter[2]! * x * z + scatter[5]! * y * z)
  // The nearest axis of the grid is up to 7° off; a click is about 2° on the ball, more near the rim.
  const allowed = values[0]! + 0.04 * values[2]! + 0.01 * weights
  const [x, y, z] = vectors[0] as [number, number, number]
  const best: Vector = z < 0 ? [-x, -y, -z] : [x, y, z]
  return [best, ...axes]
    .map(axis => ({ axis, latitudeScatter: scatterAbout(axis) }))
    .filter(({ latitudeScatter }, i) => i === 0 || latitudeScatter <= allowed)
}

/** Points one mark after another; where each mark's begin, and where the last end. */
function sortedByMark({ points, marks }: Sights): { sorted: PointSight[]; begins: number[] } {
  const sorted = points.toSorted((a, b) => a.mark - b.mark)
  const begins = marks.map((_, mark) => sorted.findIndex(s => s.mark >= mark))
  return { sorted, begins: [...begins.map(at => (at < 0 ? sorted.length : at)), sorted.length] }
}

/**
 * Σ over marks of 2·(Σ w − |Σ w·exp(jm(longitude ∓ rate·time))|)/m², w = weight·cos² latitude. The table turns the
 * points in the order that they are given in.
 */
function longitudeScatter(
  { sorted, begins }: ReturnType<typeof sortedByMark>,
  marks: Sights['marks'],
  axis: Vector,
  { cos, sin }: Turning,
  forwards: Float64Array,
  backwards: Float64Array,
): void {
  const [e1, e2] = tangents(axis)
  const n = sorted.length
  const re = new Float64Array(n)
  const im = new Float64Array(n)
  const total = new Float64Array(marks.length)
  sorted.forEach((s, i) => {
    const x = dot(s.place, e1)
    const y = dot(s.place, e2)
    const order = marks[s.mark]!.symmetryOrder
    const across = Math.sqrt(x * x + y * y)
    const w = s.weight * across * across
    const longitude = order === 1 ? 0 : order * Math.atan2(y, x)
    re[i] = order === 1 ? s.weight * across * x : w * Math.cos(longitude)
    im[i] = order === 1 ? s.weight * across * y : w * Math.sin(longitude)
    total[s.mark]! += w
  })
  forwards.fill(0)
  backwards.fill(0)
  for (let mark = 0; mark < marks.length; mark++) {
    const [from, to] = [begins[mark]!, begins[mark + 1]!]
    const perTurn = 2 / marks[mark]!.symmetryOrder ** 2
    for (let k = 0; k < forwards.length; k++) {
      let reCos = 0
      let imSin = 0
      let imCos = 0
      let reSin = 0
      for (let i = from, at = k * n + from; i < to; i++, at++) {
        const c = cos[at]!
        const s = sin[at]!
        const x = re[i]!
        const y = im[i]!
        reCos += x * c
        imSin += y * s
        imCos += y * c
        reSin += x * s
      }
      const forward = Math.sqrt((reCos + imSin) ** 2 + (imCos - reSin) ** 2)
      const backward = Math.sqrt((reCos - imSin) ** 2 + (imCos + reSin) ** 2)
      forwards[k]! += perTurn * (total[mark]! - forward)
      backwards[k]! += perTurn * (total[mark]! - backward)
    }
  }
}

/** Each mark's place at time 0 for an axis and rate: mean latitude, mean longitude turned back. */
function placesAtStart(sights: Sights, axis: Vector, rate: number): Vector[] {
  const { points, marks } = sights
  const [e1, e2] = tangents(axis)
  return marks.map(({ symmetryOrder }, mark) => {
    let [re, im, height, weight] = [0, 0, 0, 0]
    for (const s of points) {
      if (s.mark !== mark) continue
      const [x, y] = [dot(s.place, e1), dot(s.place, e2)]
      const longitude = symmetryOrder * (Math.atan2(y, x) - rate * s.timeSeconds)
      re += s.weight * Math.cos(longitude)
      im += s.weight * Math.sin(longitude)
      height += s.weight * dot(s.place, axis)
      weight += s.weight
    }
    if (weight === 0) return bestRun(sights, mark, scaled(axis, rate)).run
    const z = Math.max(-1, Math.min(1, height / weight))
    const longitude = Math.atan2(im, re) / symmetryOrder
    const across = Math.sqrt(1 - z * z)
    return sum(
      scaled(axis, z),
      sum(scaled(e1, across * Math.cos(longitude)), scaled(e2, across * Math.sin(longitude))),
    )
  })
}
