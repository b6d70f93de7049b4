import { rotationDerivative } from '../../geometry/rotation-derivative.ts'
import { scaled, type Vector } from '../../geometry/vector.ts'
import { choleskyFactor, choleskySolve } from '../../numerics/cholesky.ts'
import { meet, squarely } from './pair.ts'
import type { Sight } from './sights.ts'
import type { Sheets } from './textures.ts'

export type Pair = readonly [i: number, j: number]

/** Differences beyond this (patterns have variance 1) are no longer the same place: glare, a look through a hole. */
const doubtful = 1.2

/**
 * Gauss–Newton steps for one rotation vector on the differences of all pairs: T_j(p') − T_i(p). A small
 * change dω turns the place in frame j by δ = Δt·V_jᵀ·J(ω·Δt)·dω (J: geometry/rotation-derivative.ts), which
 * moves it by δ × p' and the difference by slope·(δ × p') = δ·(p' × slope). Differences lose weight as Cauchy's.
 */
export function stepped(
  sheets: Sheets,
  sights: readonly Sight[],
  pairs: readonly Pair[],
  start: Vector,
  options: { rounds: number; stride: number; longest: number },
): Vector {
  let rotation = start
  for (let round = 0; round < options.rounds; round++) {
    const step = stepOf(sheets, sights, pairs, rotation, options.stride)
    if (!step) return rotation
    const size = Math.hypot(...step)
    const scale = Math.min(1, options.longest / size)
    rotation = [
      rotation[0] - scale * step[0]!,
      rotation[1] - scale * step[1]!,
      rotation[2] - scale * step[2]!,
    ]
    if (size < 1e-3 * options.longest) break
  }
  return rotation
}

function stepOf(
  sheets: Sheets,
  sights: readonly Sight[],
  pairs: readonly Pair[],
  rotation: Vector,
  stride: number,
): Float64Array | null {
  const normal = new Float64Array(9)
  const pull = new Float64Array(3)
  const h = new Float64Array(9)
  const g = new Float64Array(3)
  const { disc } = sheets
  for (const [i, j] of pairs) {
    h.fill(0)
    g.fill(0)
    const own = sheets.values[i]!
    meet(sheets, sights, i, j, rotation, stride, m => {
      const difference = m.value - own[disc.node[m.node]!]!
      const weight = squarely(disc, m) / (1 + (difference / doubtful) ** 2)
      const a = -m.z * m.slopeY
      const b = m.z * m.slopeX
      const c = m.x * m.slopeY - m.y * m.slopeX
      h[0]! += weight * a * a
      h[1]! += weight * a * b
      h[2]! += weight * a * c
      h[4]! += weight * b * b
      h[5]! += weight * b * c
      h[8]! += weight * c * c
      g[0]! += weight * a * difference
      g[1]! += weight * b * difference
      g[2]! += weight * c * difference
    })
    h[3] = h[1]!
    h[6] = h[2]!
    h[7] = h[5]!
    addTurned(normal, pull, h, g, slopeOf(sights[i]!, sights[j]!, rotation))
  }
  for (let k = 0; k < 3; k++) normal[4 * k]! *= 1.001
  if (!choleskyFactor(normal, 3)) return null
  choleskySolve(normal, 3, pull)
  return pull
}

/** Δt·V_jᵀ·J(ω·Δt): how the turn seen in frame j answers to the rotation vector; row by row. */
function slopeOf(from: Sight, to: Sight, rotation: Vector): Float64Array {
  const dt = to.timeSeconds - from.timeSeconds
  const j = rotationDerivative(scaled(rotation, dt))
  const v = to.toCamera
  const slope = new Float64Array(9)
  for (let r = 0; r < 3; r++)
    for (let c = 0; c < 3; c++)
      slope[3 * r + c] = dt * (v[r]! * j[c]! + v[3 + r]! * j[3 + c]! + v[6 + r]! * j[6 + c]!)
  return slope
}

/** normal += AᵀHA, pull += Aᵀg. */
function addTurned(
  normal: Float64Array,
  pull: Float64Array,
  h: Float64Array,
  g: Float64Array,
  a: Float64Array,
): void {
  for (let r = 0; r < 3; r++) {
    for (let k = 0; k < 3; k++) pull[r]! += a[3 * k + r]! * g[k]!
    for (let c = 0; c < 3; c++)
      for (let k = 0; k < 3; k++)
        for (let l = 0; l < 3; l++) normal[3 * r + c]! += a[3 * k + r]! * h[3 * k + l]! * a[3 * l + c]!
  }
}
