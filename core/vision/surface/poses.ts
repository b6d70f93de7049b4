import type { Rotation } from '../../geometry/rotation.ts'
import type { Vector } from '../../geometry/vector.ts'
import { choleskyFactor, choleskySolve } from '../../numerics/cholesky.ts'
import { meet, squarely, turnBetween } from './pair.ts'
import type { Sight } from './sights.ts'
import type { Pair } from './steps.ts'
import type { Sheets } from './textures.ts'

/** How far a frame's ball stands turned from where the rotation has it: a small rotation vector, its view axes, rad. */
export type Poses = {
  turns: Vector[]
  /** How far all outlines' centres, and their radius, are off alike, ball radii. */
  common: readonly [x: number, y: number, radius: number]
}

const perFrame = 5
const shared = 3
const own = 2 * perFrame
const all = own + shared
/** Slopes of which all answers of a pair are made: frame i's pattern (2), frame j's turn (3) and pattern (2), and outwards. */
const slopes = 8
const doubtful = 1.2
/** Standard uncertainties beforehand: a frame's turn, rad, and centre, ball radii; what all centres and radii share. */
const turnPrior = 0.3
const offsetPrior = 0.006
const commonPrior = [0.03, 0.03, 0.02] as const

/**
 * Every frame's own turn and centre at once, from the differences of all pairs, by one Gauss–Newton step
 * about the rotation: e = T_j(p′) − T_i(p) answers to frame j's turn by p′ × slope, to frame i's by minus
 * that turned back, to the centres by the slopes themselves. A common turn of all frames is held at 0 softly.
 */
export function posesOf(
  sheets: Sheets,
  sights: readonly Sight[],
  pairs: readonly Pair[],
  rotation: Vector,
  stride: number,
): Poses | null {
  const n = sights.length
  const size = perFrame * n + shared
  const normal = new Float64Array(size * size)
  const pull = new Float64Array(size)
  const products = new Float64Array(slopes * slopes)
  const pulls = new Float64Array(slopes)
  const row = new Float64Array(slopes)
  const { disc } = sheets
  let squares = 0
  let total = 0
  for (const [i, j] of pairs) {
    products.fill(0)
    pulls.fill(0)
    const sheet = sheets.values[i]!
    const { half, size: width } = disc
    meet(sheets, sights, i, j, rotation, stride, m => {
      const at = disc.node[m.node]!
      const e = m.value - sheet[at]!
      const weight = squarely(disc, m) / (1 + (e / doubtful) ** 2)
      row[0] = (-half * (sheet[at + 1]! - sheet[at - 1]!)) / 2
      row[1] = (-half * (sheet[at + width]! - sheet[at - width]!)) / 2
      row[2] = -m.z * m.slopeY
      row[3] = m.z * m.slopeX
      row[4] = m.x * m.slopeY - m.y * m.slopeX
      row[5] = m.slopeX
      row[6] = m.slopeY
      row[7] = disc.x[m.node]! * row[0]! + disc.y[m.node]! * row[1]! + m.x * m.slopeX + m.y * m.slopeY
      for (let k = 0; k < slopes; k++) {
        const wk = weight * row[k]!
        pulls[k]! += wk * e
        for (let l = 0; l <= k; l++) products[slopes * k + l]! += wk * row[l]!
      }
      squares += weight * e * e
      total += weight
    })
    const answers = answersOf(turnBetween(sights[i]!, sights[j]!, rotation))
    const { block, g } = spreadOut(answers, products, pulls)
    const placeOf = (k: number) =>
      k < perFrame ? perFrame * i + k : k < own ? perFrame * j + k - perFrame : perFrame * n + k - own
    for (let k = 0; k < all; k++) {
      pull[placeOf(k)]! += g[k]!
      for (let l = 0; l < all; l++) normal[placeOf(k) * size + placeOf(l)]! += block[all * k + l]!
    }
  }
  if (total === 0) return null
  // Neighbouring places are not on their own, and each frame stands in many pairs: the prior weighs as it would against one disc.
  const variance = squares / total
  const correlated = (30 * pairs.length) / n
  for (let k = 0; k < perFrame * n; k++) {
    const prior = k % perFrame < 3 ? turnPrior : offsetPrior
    normal[k * size + k]! += (correlated * variance) / prior ** 2
  }
  commonPrior.forEach((prior, k) => {
    normal[(perFrame * n + k) * (size + 1)]! += (correlated * variance) / prior ** 2
  })
  if (!choleskyFactor(normal, size)) return null
  choleskySolve(normal, size, pull)
  const at = perFrame * n
  return {
    turns: sights.map((_, i): Vector => [-pull[5 * i]!, -pull[5 * i + 1]!, -pull[5 * i + 2]!]),
    common: [-pull[at]!, -pull[at + 1]!, -pull[at + 2]!],
  }
}

/** How the difference answers to what is unknown of a pair (rows: both frames' turn and centre, what all share), in slopes. */
function answersOf(r: Rotation): Float64Array {
  const answers = new Float64Array(all * slopes)
  for (let k = 0; k < 3; k++) {
    for (let l = 0; l < 3; l++) answers[slopes * k + 2 + l] = -r[3 * l + k]!
    answers[slopes * (perFrame + k) + 2 + k] = 1
  }
  for (let k = 0; k < 2; k++) {
    for (const at of [3 + k, own + k]) answers[slopes * at + k] = 1
    for (const at of [perFrame + 3 + k, own + k]) answers[slopes * at + 5 + k] = 1
  }
  answers[slopes * (own + 2) + 7] = 1
  return answers
}

/** A·P·Aᵀ and A·p; of the symmetric P the lower half is given. */
function spreadOut(answers: Float64Array, products: Float64Array, pulls: Float64Array) {
  const block = new Float64Array(all * all)
  const g = new Float64Array(all)
  const half = new Float64Array(slopes)
  for (let k = 0; k < all; k++) {
    half.fill(0)
    for (let a = 0; a < slopes; a++) {
      const by = answers[slopes * k + a]!
      if (by === 0) continue
      g[k]! += by * pulls[a]!
      for (let b = 0; b < slopes; b++) half[b]! += by * products[a >= b ? slopes * a + b : slopes * b + a]!
    }
    for (let l = 0; l < all; l++)
      for (let b = 0; b < slopes; b++) block[all * k + l]! += answers[slopes * l + b]! * half[b]!
  }
  return { block, g }
}
