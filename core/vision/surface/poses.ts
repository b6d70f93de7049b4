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
  const block = new Float64Array(all * all)
  const g = new Float64Array(all)
  const row = new Float64Array(all)
  const { disc } = sheets
  let squares = 0
  let total = 0
  for (const [i, j] of pairs) {
    block.fill(0)
    g.fill(0)
    const sheet = sheets.values[i]!
    const r = turnBetween(sights[i]!, sights[j]!, rotation)
    const { half, size: width } = disc
    meet(sheets, sights, i, j, rotation, stride, m => {
      const at = disc.node[m.node]!
      const e = m.value - sheet[at]!
      const weight = squarely(disc, m) / (1 + (e / doubtful) ** 2)
      const a = -m.z * m.slopeY
      const b = m.z * m.slopeX
      const c = m.x * m.slopeY - m.y * m.slopeX
      row[0] = -(r[0] * a + r[3] * b + r[6] * c)
      row[1] = -(r[1] * a + r[4] * b + r[7] * c)
      row[2] = -(r[2] * a + r[5] * b + r[8] * c)
      row[3] = (-half * (sheet[at + 1]! - sheet[at - 1]!)) / 2
      row[4] = (-half * (sheet[at + width]! - sheet[at - width]!)) / 2
      row[5] = a
      row[6] = b
      row[7] = c
      row[8] = m.slopeX
      row[9] = m.slopeY
      row[10] = row[3]! + row[8]!
      row[11] = row[4]! + row[9]!
      row[12] = disc.x[m.node]! * row[3]! + disc.y[m.node]! * row[4]! + m.x * m.slopeX + m.y * m.slopeY
      for (let k = 0; k < all; k++) {
        const wk = weight * row[k]!
        g[k]! += wk * e
        for (let l = 0; l <= k; l++) block[all * k + l]! += wk * row[l]!
      }
      squares += weight * e * e
      total += weight
    })
    const placeOf = (k: number) =>
      k < perFrame ? perFrame * i + k : k < own ? perFrame * j + k - perFrame : perFrame * n + k - own
    for (let k = 0; k < all; k++) {
      pull[placeOf(k)]! += g[k]!
      for (let l = 0; l < all; l++)
        normal[placeOf(k) * size + placeOf(l)]! += block[l <= k ? all * k + l : all * l + k]!
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
