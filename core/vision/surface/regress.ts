import { type Rotation, rotationFromVector, turnedBack } from '../../geometry/rotation.ts'
import { rotationDerivative } from '../../geometry/rotation-derivative.ts'
import { dot, scaled, unit, type Vector } from '../../geometry/vector.ts'
import { linearLeastSquares } from '../../numerics/linear-least-squares.ts'
import { median } from '../../numerics/median.ts'
import { robustWeight } from '../../numerics/robust-weight.ts'
import { assumed } from '../../spin/assumptions.ts'
import { opennessOf } from './openness.ts'
import { wavesOf } from './pattern-wave.ts'
import type { Sight } from './sights.ts'

/** What the frames' own turns say about the motion they should follow. */
export type Regression = {
  change: Vector
  /** To be added to 1/focal length, px⁻¹; 0 where it was held. */
  flatnessChange: number
  /** Standard uncertainties: of the rate, rad/s, and of the axis's direction, rad. */
  rateUncertainty: number
  axisUncertainty: number
  degreesOfFreedom: number
  /** What is left of each frame's turn, along the rotation (phase) and as a whole, rad. */
  phaseResiduals: number[]
  weights: number[]
  scatterRad: number
  /** ∂rate/∂(phase of a frame). */
  phaseGains: number[]
}

export type FlatnessPrior = { offBy: number; uncertainty: number } | null

/** Columns of decay and flatness in the design, after the rotation vector's and the start pose's. */
const decay = 6
const flat = 7
const columns = 8

/**
 * Least squares of the frames' turns δ on the rotation vector, the start pose and, where the focal length is
 * open, the flatness κ = 1/F of the view: δ = Vᵀ·t·J(ω·t)·dω + Vᵀ·R(ω·t)·dq − Vᵀ·ω·t²/2·d − v·dκ/(1 + κ²ρ²), with
 * d the share of its spin that the ball loses a second, v the axis (−y, x, 0) about which the line of sight is turned
 * and (x, y) = ρ the ball's place off the picture's middle. The rate is that in the middle of the flight.
 * Frames that stand off lose weight. The scatter of what is left gives the uncertainty: along the line of
 * sight, and across it, where an outline's error turns the ball too, on their own; widened where
 * neighbouring frames err alike (lag-1 correlation φ: variance of a slope by (1 + φ)/(1 − φ)).
 *
 * A pattern that seems to run ahead and lag behind with every turn (pattern-wave.ts) passes for another focal
 * length where a flight shows little of a turn. The flatness is drawn to what was known of it as far as that leaves
 * it open: by the variances of scatter and wave together against the prior's.
 */
export function regressed(
  turns: readonly Vector[],
  sights: readonly Sight[],
  rotation: Vector,
  flatness: number,
  places: readonly (readonly [x: number, y: number])[],
  prior: FlatnessPrior,
): Regression | null {
  const n = turns.length
  const p = prior ? flat + 1 : flat
  const rows = sights.map((sight, i) => rowsOf(sight, rotation, flatness, places[i]!))
  let sigma: Vector = [1, 1, 1]
  let weights = turns.map(() => 1)
  let fit = null
  let left: Vector[] = []
  let openBy = 0
  const axis = unit(rotation)
  const spun = prior ? wavesOf(sights, rotation) : []
  for (let round = 0; round < 6; round++) {
    const design: number[] = []
    const weighed = (of: readonly Vector[]) =>
      of.flatMap((v, i) => v.map((e, k) => (Math.sqrt(weights[i]!) / sigma[k]!) * e))
    const y = weighed(turns)
    for (let i = 0; i < n; i++)
      for (let k = 0; k < 3; k++) {
        const w = Math.sqrt(weights[i]!) / sigma[k]!
        for (let c = 0; c < p; c++) design.push(w * rows[i]![columns * k + c]!)
      }
    design.push(...Array.from({ length: p }, (_, c) => (c === decay ? 1 / assumed.decayPerSecond : 0)))
    y.push(0)
    if (prior) {
      const open = opennessOf(
        design,
        y,
        spun.map(wave => [...weighed(wave), 0]),
        flat,
      )
      if (!open) return null
      openBy = 1 / (1 / open.variance + 1 / prior.uncertainty ** 2)
      const drawn = Math.sqrt(open.variance / open.ofScatter) / prior.uncertainty
      design.push(0, 0, 0, 0, 0, 0, 0, drawn)
      y.push(drawn * prior.offBy)
    }
    fit = linearLeastSquares(design, y, p)
    if (!fit) return null
    const { coefficients } = fit
    left = turns.map((turn, i) => {
      const at = (k: number) => {
        let modelled = 0
        for (let c = 0; c < p; c++) modelled += rows[i]![columns * k + c]! * coefficients[c]!
        return turn[k]! - modelled
      }
      return [at(0), at(1), at(2)]
    })
    const used = weights.reduce((sum, w) => sum + w, 0)
    const spread = (k: 0 | 1 | 2) => left.reduce((sum, e, i) => sum + weights[i]! * e[k] ** 2, 0)
    const freedom = Math.max(used - p / 3, 1)
    const across = Math.max(Math.sqrt((spread(0) + spread(1)) / (2 * freedom)), 1e-4)
    sigma = [across, across, Math.max(Math.sqrt(spread(2) / freedom), 1e-4)]
    const sizes = left.map(e => Math.hypot(e[0] / sigma[0], e[1] / sigma[1], e[2] / sigma[2]))
    const scale = median(sizes) / 1.54
    weights = sizes.map(size => robustWeight(size, Math.max(scale, 1e-9), 3))
  }
  const phase = left.map((e, i) => dot(e, turnedBack(sights[i]!.toCamera, axis)))
  const alike = Math.max(0, Math.min(0.7, lagOne(phase)))
  const widened = (1 + alike) / (1 - alike)
  const c = fit!.covariance
  // What the flatness leaves open is more than the fit, which holds it fast, knows of.
  const held = prior ? c[flat * p + flat]! : 1
  const more = prior ? Math.max(openBy - held, 0) / held ** 2 : 0
  const covered = (a: number, b: number) =>
    c[a * p + b]! + (prior ? more * c[a * p + flat]! * c[b * p + flat]! : 0)
  const along = (v: Vector) => {
    let sum = 0
    for (let a = 0; a < 3; a++) for (let b = 0; b < 3; b++) sum += v[a]! * v[b]! * covered(a, b)
    return sum
  }
  const trace = covered(0, 0) + covered(1, 1) + covered(2, 2)
  const rate = Math.hypot(...rotation)
  const used = weights.reduce((sum, w) => sum + w, 0)
  return {
    change: [fit!.coefficients[0]!, fit!.coefficients[1]!, fit!.coefficients[2]!],
    flatnessChange: prior ? fit!.coefficients[flat]! : 0,
    rateUncertainty: Math.sqrt(widened * along(axis)),
    axisUncertainty: Math.sqrt(widened * Math.max(trace - along(axis), 0)) / rate,
    degreesOfFreedom: Math.max(used / widened - 2, 1),
    phaseResiduals: phase,
    weights,
    scatterRad: Math.sqrt(phase.reduce((sum, e, i) => sum + weights[i]! * e * e, 0) / Math.max(used - 2, 1)),
    phaseGains: gainsOf(sights, weights),
  }
}

/** Of a straight line through the phases: what the budget's other lines are made from. */
function gainsOf(sights: readonly Sight[], weights: readonly number[]): number[] {
  const total = weights.reduce((sum, w) => sum + w, 0)
  const mean = sights.reduce((sum, s, i) => sum + weights[i]! * s.timeSeconds, 0) / total
  const spread = sights.reduce((sum, s, i) => sum + weights[i]! * (s.timeSeconds - mean) ** 2, 0)
  return sights.map((s, i) => (weights[i]! * (s.timeSeconds - mean)) / spread)
}

function lagOne(values: readonly number[]): number {
  let [own, next] = [0, 0]
  values.forEach((value, i) => {
    own += value * value
    if (i > 0) next += value * values[i - 1]!
  })
  return own > 0 ? next / own : 0
}

/** Three rows: how a frame's turn (view axes) answers to dω, dq, d and dκ. */
function rowsOf(
  sight: Sight,
  rotation: Vector,
  flatness: number,
  [x, y]: readonly [number, number],
): Float64Array {
  const t = sight.timeSeconds
  const angle = scaled(rotation, t)
  const j = rotationDerivative(angle)
  const r = rotationFromVector(angle)
  const rows = new Float64Array(3 * columns)
  const column = (m: Rotation, c: 0 | 1 | 2): Vector => [m[c]!, m[c + 3]!, m[c + 6]!] as Vector
  for (const c of [0, 1, 2] as const) {
    const byRotation = turnedBack(sight.toCamera, scaled(column(j, c), t))
    const byStart = turnedBack(sight.toCamera, column(r, c))
    for (let k = 0; k < 3; k++) {
      rows[columns * k + c] = byRotation[k]!
      rows[columns * k + 3 + c] = byStart[k]!
    }
  }
  const lost = turnedBack(sight.toCamera, scaled(rotation, (-t * t) / 2))
  for (let k = 0; k < 3; k++) rows[columns * k + decay] = lost[k]!
  const less = 1 / (1 + flatness ** 2 * (x * x + y * y))
  rows[flat] = y * less
  rows[columns + flat] = -x * less
  return rows
}
