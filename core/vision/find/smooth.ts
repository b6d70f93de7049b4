import { linearLeastSquares } from '../../numerics/linear-least-squares.ts'
import { robustScale, robustWeight } from '../../numerics/robust-weight.ts'

export type PathPoint = { timeSeconds: number; xPx: number; yPx: number; radiusPx: number; weight: number }
export type SmoothAt = {
  xPx: number
  yPx: number
  radiusPx: number
  centreUncertaintyPx: number
  radiusUncertaintyPx: number
}
export type SmoothPath = { at: (timeSeconds: number) => SmoothAt; scatterPx: number }

/**
 * A low polynomial in time through the centres (at most `degree`) and the radii (at most 2): over the frames of
 * a flight gravity, drag and perspective bend no more than that. Stray points lose weight. Null when too few.
 */
export function smoothed(points: readonly PathPoint[], degree: number): SmoothPath | null {
  const n = points.length
  if (n < 3) return null
  const times = points.map(point => point.timeSeconds)
  const middle = (times[0]! + times[n - 1]!) / 2
  const half = Math.max((times[n - 1]! - times[0]!) / 2, 1e-9)
  const scaled = times.map(t => (t - middle) / half)
  const order = Math.max(1, Math.min(degree, Math.floor((n - 1) / 3)))
  const weights = points.map(point => point.weight)
  const x = fitted(
    scaled,
    points.map(p => p.xPx),
    weights,
    order,
  )
  const y = fitted(
    scaled,
    points.map(p => p.yPx),
    weights,
    order,
  )
  const radius = fitted(
    scaled,
    points.map(p => p.radiusPx),
    weights,
    Math.min(order, 2),
  )
  if (!x || !y || !radius) return null
  return {
    scatterPx: Math.hypot(x.scatter, y.scatter) / Math.SQRT2,
    at: t => {
      const u = (t - middle) / half
      return {
        xPx: x.at(u),
        yPx: y.at(u),
        radiusPx: radius.at(u),
        centreUncertaintyPx: Math.hypot(x.uncertaintyAt(u), y.uncertaintyAt(u)) / Math.SQRT2,
        radiusUncertaintyPx: radius.uncertaintyAt(u),
      }
    },
  }
}

function fitted(u: readonly number[], values: readonly number[], given: readonly number[], order: number) {
  const p = order + 1
  let weights = [...given]
  let fit = null
  let scatter = 0
  const powers = (at: number) => Array.from({ length: p }, (_, k) => at ** k)
  const valueAt = (at: number) => powers(at).reduce((sum, power, k) => sum + power * fit!.coefficients[k]!, 0)
  for (let round = 0; round < 5; round++) {
    const roots = weights.map(Math.sqrt)
    fit = linearLeastSquares(
      u.flatMap((at, i) => powers(at).map(power => roots[i]! * power)),
      values.map((value, i) => roots[i]! * value),
      p,
    )
    if (!fit) return null
    const left = values.map((value, i) => value - valueAt(u[i]!))
    scatter = Math.max(robustScale(left, p), 0.02)
    weights = left.map((e, i) => given[i]! * robustWeight(e, scatter, 2.5))
    if (weights.filter(weight => weight > 0).length <= p) return null
  }
  const { covariance } = fit!
  return {
    scatter,
    at: valueAt,
    uncertaintyAt: (at: number) => {
      const row = powers(at)
      let sum = 0
      for (let a = 0; a < p; a++)
        for (let b = 0; b < p; b++) sum += row[a]! * row[b]! * covariance[a * p + b]!
      return scatter * Math.sqrt(sum)
    },
  }
}
