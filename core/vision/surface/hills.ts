import { rotationFromVector } from '../../geometry/rotation.ts'
import { length, scaled, sum, tangents, unit, type Vector } from '../../geometry/vector.ts'
import { type Agreement, totalOf } from './agreement.ts'
import { product } from './pair.ts'
import { distinct, type Found } from './search.ts'

/** Rotations whose poses never differ by more than this, radians, stand on one and the same hill of the agreement. */
const sameHill = 0.2
/** Where they differ by more than this they never do. */
const otherHill = 0.75
/** A hill's slope may dip by this share between two places of it: the agreement is not quite smooth. */
const dip = 0.03
/** Before the middle the poses differ as they do behind it. */
const timesCompared = 8
const keptHills = 6
const keptAbout = 3
/** Step and reach of the scan about one axis, radians over the whole flight: a hole is about 0.7 from the next. */
const scanStep = 0.12
const scanReach = 8

export const judged = (agreement: Agreement, rotation: Vector): Found => ({
  rotation,
  score: totalOf(agreement(rotation)),
})

/** The rates about one axis, some holes further on or back over the whole flight, that the frames agree on best. */
export function ratesAbout(agreement: Agreement, rotation: Vector, seconds: number): Vector[] {
  const axis = unit(rotation)
  const most = Math.round(scanReach / scanStep)
  const tried = Array.from({ length: 2 * most + 1 }, (_, k) =>
    judged(agreement, sum(rotation, scaled(axis, ((k - most) * scanStep) / seconds))),
  )
  return distinct(tried, (2.5 * scanStep) / seconds)
    .slice(0, keptAbout)
    .map(one => one.rotation)
}

/** The largest angle between the poses that two rotations give a ball along a flight; its middle is common to both. */
function posesApart(a: Vector, b: Vector, seconds: number): number {
  let apart = 0
  for (let k = 1; k <= timesCompared; k++) {
    const t = (seconds / 2) * (k / timesCompared)
    const between = product(rotationFromVector(scaled(a, t)), rotationFromVector(scaled(b, -t)))
    const cosine = (between[0] + between[4] + between[8] - 1) / 2
    apart = Math.max(apart, Math.acos(Math.max(-1, Math.min(1, cosine))))
  }
  return apart
}

/** The tops of the hills that the found rotations stand on, each once, best first. */
export function hillsOf(
  agreement: Agreement,
  found: readonly Found[],
  seconds: number,
  settled: (one: Found) => Found,
): Found[] {
  const tops: Found[] = []
  const isOn = (one: Found) =>
    tops.some(top => {
      const [a, b] = [one.rotation, top.rotation]
      const apart = posesApart(a, b, seconds)
      if (apart < sameHill || apart > otherHill) return apart < sameHill
      const valley = (1 - dip) * Math.min(one.score, top.score)
      return [1 / 3, 2 / 3].every(
        share => judged(agreement, sum(scaled(a, 1 - share), scaled(b, share))).score >= valley,
      )
    })
  for (const one of [...found].sort((a, b) => b.score - a.score)) {
    if (tops.length === keptHills) break
    if (isOn(one)) continue
    const top = settled(one)
    if (!isOn(top)) tops.push(top)
  }
  return tops.sort((a, b) => b.score - a.score)
}

/** To the top of the hill: along the rate and across it by parabolas, in ever smaller steps (radians over the flight). */
export function climbed(
  agreement: Agreement,
  start: Found,
  seconds: number,
  steps: readonly number[],
): Found {
  let best = start
  for (const step of steps) {
    const axis = unit(best.rotation)
    const tilt = (step / 2) * length(best.rotation)
    const ways = [scaled(axis, step / seconds), ...tangents(axis).map(across => scaled(across, tilt))]
    for (const way of ways) {
      const from = best
      const at = (steps: number) => judged(agreement, sum(from.rotation, scaled(way, steps)))
      const [before, after] = [at(-1), at(1)]
      const bend = before.score + after.score - 2 * from.score
      const tried = [before, after]
      if (bend < 0) tried.push(at(Math.max(-1.5, Math.min(1.5, (before.score - after.score) / (2 * bend)))))
      for (const one of tried) if (one.score > best.score) best = one
    }
  }
  return best
}
