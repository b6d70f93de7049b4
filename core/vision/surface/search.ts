import { length, scaled, type Vector } from '../../geometry/vector.ts'
import { radOfDeg } from '../../units/angle.ts'
import { angles, likenessAbout } from './about-axis.ts'
import { type Agreement, totalOf } from './agreement.ts'
import { evidenceIn, patches } from './evidence.ts'
import type { Sight } from './sights.ts'
import { type Pair, stepped } from './steps.ts'
import type { Sheets } from './textures.ts'

export type Found = { rotation: Vector; score: number }

/** Step between the axes of the wide search, radians: well within the hill that a hole makes in the score. */
const axisStep = 0.15
/** Gaps in frames over which the wide search judges, and how far off a whole number of intervals a pair may lie. */
const gapsLookedAt = [1, 2, 3, 4, 5, 6, 8, 11]
const offBeat = 0.25
/** Step of the rate, radians over the longest gap. */
const rateStep = 0.16
/** A ball that turns by less in a frame looks like the lamp's shading, which stands still: not looked for. */
export const smallestTurn = radOfDeg(2.5)
const pairsAGap = 6
const keptOfAxes = 60
const keptOfSearch = 12

/** Pairs of frames a given number of frames apart, at most `count` of them, spread over the flight. */
export function pairsApart(frames: number, gap: number, count: number): Pair[] {
  const all = frames - gap
  if (all <= 0) return []
  const taken = Math.min(count, all)
  return Array.from({ length: taken }, (_, k) => {
    const i = Math.floor(((k + 0.5) * all) / taken)
    return [i, i + gap] as const
  })
}

/**
 * Rotation vectors that may explain the frames, best first. All axes, and about each all turns up to the plausible one
 * (at most half a turn a frame: what is beyond looks the same), are held against a soft pattern over gaps of one to
 * eleven frames at once: holes nearly repeat, and a wrong turn often explains neighbours as well as the right one
 * does. The hills are then judged by how far all frames agree (`agreement`).
 */
export function search(
  soft: Sheets,
  sights: readonly Sight[],
  agreement: Agreement,
  maxRate: number,
): Found[] {
  const gapSeconds = Math.min(...sights.slice(1).map((s, i) => s.timeSeconds - sights[i]!.timeSeconds))
  const largest = Math.min(maxRate * gapSeconds * 1.05, Math.PI)
  const hills = axisHills(soft, sights, largest, gapSeconds)
  // Neighbouring frames lead from a hill's side to its top where their pattern is crisp, and astray where it is smeared.
  const near = [1, 2, 3].flatMap(gap => pairsApart(sights.length, gap, pairsAGap))
  const options = { rounds: 4, stride: 1, longest: 0.1 / gapSeconds }
  const found = hills
    .flatMap(({ rotation }) => [rotation, stepped(soft, sights, near, rotation, options)])
    .filter(rotation => length(rotation) * gapSeconds > smallestTurn)
    .map(rotation => ({ rotation, score: totalOf(agreement(rotation)) }))
  return distinct(found, 0.05 / gapSeconds).slice(0, keptOfSearch)
}

/** Best first, without those that are another one over again. */
export function distinct(found: readonly Found[], apart: number): Found[] {
  const kept: Found[] = []
  for (const one of [...found].sort((a, b) => b.score - a.score)) {
    const near = kept.some(({ rotation: [x, y, z] }) => {
      const [a, b, c] = one.rotation
      return Math.hypot(x - a, y - b, z - c) < apart
    })
    if (!near) kept.push(one)
  }
  return kept
}

/** Pairs whose times lie a whole number of intervals apart, gap after gap; gaps that no pair has are left out. */
function setsApart(sights: readonly Sight[], gapSeconds: number): Pair[][] {
  const sets = gapsLookedAt.map((): Pair[] => [])
  const most = gapsLookedAt.at(-1)!
  for (let i = 0; i < sights.length; i++)
    for (let j = i + 1; j < Math.min(sights.length, i + most + 1); j++) {
      const gap = (sights[j]!.timeSeconds - sights[i]!.timeSeconds) / gapSeconds
      const set = gapsLookedAt.indexOf(Math.round(gap))
      if (set >= 0 && Math.abs(gap - Math.round(gap)) < offBeat) sets[set]!.push([i, j])
    }
  return sets.filter(pairs => pairs.length > 0)
}

/** Hills of the evidence over all axes and rates. */
function axisHills(soft: Sheets, sights: readonly Sight[], largest: number, gapSeconds: number): Found[] {
  const sets = setsApart(sights, gapSeconds)
  const seconds = sets.map(
    pairs =>
      pairs.reduce((sum, [i, j]) => sum + sights[j]!.timeSeconds - sights[i]!.timeSeconds, 0) / pairs.length,
  )
  const step = rateStep / seconds.at(-1)!
  const most = Math.ceil(largest / gapSeconds / step)
  const found: Found[] = []
  const axes = Math.ceil((2 * Math.PI) / axisStep ** 2)
  for (let k = 0; k < axes; k++) {
    // Half the sphere: the other half is the same axes turned about backwards.
    const z = 1 - (k + 0.5) / axes
    const turn = k * Math.PI * (3 - Math.sqrt(5))
    const ring = Math.sqrt(1 - z * z)
    const axis: Vector = [ring * Math.cos(turn), ring * Math.sin(turn), z]
    const { correlation, shared } = likenessAbout(soft, sights, axis, sets)
    const evidence = correlation.map((c, at) => evidenceIn(c, patches * shared[at]!))
    const scores = Float32Array.from({ length: 2 * most + 1 }, (_, r) => {
      let score = 0
      for (let p = 0; p < sets.length; p++) {
        const turns = ((r - most) * step * seconds[p]!) / (2 * Math.PI)
        const place = (turns - Math.floor(turns)) * angles
        const below = Math.floor(place) % angles
        const a = evidence[p * angles + below]!
        const b = evidence[p * angles + ((below + 1) % angles)]!
        score += a + (place - Math.floor(place)) * (b - a)
      }
      return score
    })
    scores.forEach((score, r) => {
      if (score > 0 && score >= (scores[r - 1] ?? 0) && score >= (scores[r + 1] ?? 0))
        found.push({ rotation: scaled(axis, (r - most) * step), score })
    })
  }
  // The best alone are compared with each other, which costs the square of their number.
  const best = found.sort((a, b) => b.score - a.score).slice(0, 600)
  return distinct(best, 0.1 / gapSeconds).slice(0, keptOfAxes)
}
