import { length, scaled, type Vector } from '../../geometry/vector.ts'
import { radOfDeg } from '../../units/angle.ts'
import { angles, likenessAbout } from './about-axis.ts'
import { evidenceIn, patches } from './evidence.ts'
import { likeness } from './pair.ts'
import type { Sight } from './sights.ts'
import { type Pair, stepped } from './steps.ts'
import type { Sheets } from './textures.ts'

export type Found = { rotation: Vector; score: number }

/** Step between the axes of the wide search, radians: well within the hill that a hole makes in the score. */
const axisStep = 0.15
/** Frames that the wide search looks at, from the middle of the flight, and the gaps over which it judges. */
const framesLookedAt = 20
const gapsLookedAt = [1, 2, 3, 4, 5, 6, 8]
const pairsAGap = 6
/** Step of the rate, radians over the longest gap. */
const rateStep = 0.16
/** A ball that turns by less in a frame looks like the lamp's shading, which stands still: not looked for. */
export const smallestTurn = radOfDeg(2.5)
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
 * Evidence that a rotation explains the pairs: summed over gaps, the mean over the pairs of a gap. Pairs that
 * show little in common say little, whatever their likeness.
 */
function evidenceOf(
  sheets: Sheets,
  sights: readonly Sight[],
  sets: readonly (readonly Pair[])[],
  rotation: Vector,
  stride: number,
): number {
  let total = 0
  for (const pairs of sets) {
    for (const [i, j] of pairs) {
      const { correlation, places } = likeness(sheets, sights, i, j, rotation, stride)
      const n = (patches * places * stride) / sheets.disc.node.length
      total += evidenceIn(correlation, n) / pairs.length
    }
  }
  return total
}

/**
 * Rotation vectors that explain the frames, best first. All axes, and about each all turns up to the plausible one
 * (at most half a turn a frame: what is beyond looks the same), are judged on a soft pattern over gaps of one to
 * eight frames at once: holes nearly repeat, and a wrong turn often explains neighbours as well as the right one
 * does. The best hills are climbed and judged again.
 */
export function search(soft: Sheets, sights: readonly Sight[], maxRate: number): Found[] {
  const n = sights.length
  const gapSeconds = Math.min(...sights.slice(1).map((s, i) => s.timeSeconds - sights[i]!.timeSeconds))
  const largest = Math.min(maxRate * gapSeconds * 1.05, Math.PI)
  const hills = axisHills(soft, sights, largest, gapSeconds)
  const near = [1, 2, 3].map(gap => pairsApart(n, gap, 6))
  const far = [1, 2, 3, 5].map(gap => pairsApart(n, gap, 6))
  const climbed = hills.map(({ rotation }) => {
    const options = { rounds: 4, stride: 1, longest: 0.1 / gapSeconds }
    const better = stepped(soft, sights, near.flat(), rotation, options)
    return { rotation: better, score: evidenceOf(soft, sights, far, better, 1) }
  })
  const turning = climbed.filter(({ rotation }) => length(rotation) * gapSeconds > smallestTurn)
  return distinct(turning, 0.05 / gapSeconds).slice(0, keptOfSearch)
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

/** Hills of the evidence over all axes and rates. */
function axisHills(soft: Sheets, sights: readonly Sight[], largest: number, gapSeconds: number): Found[] {
  const n = sights.length
  const count = Math.min(n, framesLookedAt)
  const from = Math.floor((n - count) / 2)
  const gaps = gapsLookedAt.filter(gap => gap < count - 1)
  const sets = gaps.map(gap =>
    pairsApart(count, gap, pairsAGap).map(([i, j]) => [i + from, j + from] as const),
  )
  const pairs = sets.flat()
  const shares = sets.flatMap(set => set.map(() => 1 / set.length))
  const seconds = pairs.map(([i, j]) => sights[j]!.timeSeconds - sights[i]!.timeSeconds)
  const step = rateStep / (gaps.at(-1)! * gapSeconds)
  const most = Math.ceil(largest / gapSeconds / step)
  const found: Found[] = []
  const axes = Math.ceil((2 * Math.PI) / axisStep ** 2)
  for (let k = 0; k < axes; k++) {
    // Half the sphere: the other half is the same axes turned about backwards.
    const z = 1 - (k + 0.5) / axes
    const turn = k * Math.PI * (3 - Math.sqrt(5))
    const ring = Math.sqrt(1 - z * z)
    const axis: Vector = [ring * Math.cos(turn), ring * Math.sin(turn), z]
    const { correlation, shared } = likenessAbout(soft, sights, axis, pairs)
    const evidence = correlation.map((c, at) => evidenceIn(c, patches * shared[at]!))
    const scores = Float32Array.from({ length: 2 * most + 1 }, (_, r) => {
      let score = 0
      for (let p = 0; p < pairs.length; p++) {
        const turns = ((r - most) * step * seconds[p]!) / (2 * Math.PI)
        const place = (turns - Math.floor(turns)) * angles
        const below = Math.floor(place) % angles
        const a = evidence[p * angles + below]!
        const b = evidence[p * angles + ((below + 1) % angles)]!
        score += shares[p]! * (a + (place - Math.floor(place)) * (b - a))
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
