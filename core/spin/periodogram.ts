import { parabolaPeak } from '../numerics/parabola-peak.ts'
import type { Bearings } from './bearings-of.ts'

/** A rate at which the bearings line up; `misfitPx2` is what is left of Σ(px²) there, nearly. */
export type Peak = { rateRadPerSecond: number; misfitPx2: number }

/** Rates looked at in 1/(time span · highest symmetry order). Method: finer than a quarter. */
const stepsPerResolution = 5

/**
 * All rates up to ±`maxRate`, both senses, at which the bearings line up better than at the neighbours.
 *
 * At each rate ω the misfit is 2·Σₖ Iₖ(1 − cos m(βₖ − ωtₖ − b)), Iₖ = ρₖ²/m², with the offset b of each
 * mark at its best: 2(Σ I − Σ_marks |Σ I·exp(jm(β − ωt))|). For small residuals this is Σ ρ²·residual²,
 * the sum of squares in px². With one mark, |Σ|/ΣI is the resultant length of the Lomb–Scargle kind.
 *
 * Source: Rife and Boorstyn, IEEE Trans. Inf. Theory 20 (1974) 591 (coarse search, then fine).
 */
export function peaksOf(b: Bearings, maxRate: number): Peak[] {
  let first = Number.POSITIVE_INFINITY
  let last = Number.NEGATIVE_INFINITY
  let shortestPeriod = 2 * Math.PI
  for (let k = 0; k < b.count; k++) {
    first = Math.min(first, b.timeSeconds[k]!)
    last = Math.max(last, b.timeSeconds[k]!)
    shortestPeriod = Math.min(shortestPeriod, b.periodRad[k]!)
  }
  const step = shortestPeriod / (stepsPerResolution * (last - first))
  const half = Math.ceil(maxRate / step) + 1
  const misfit = misfitOnGrid(b, half, step, (first + last) / 2)
  const peaks: Peak[] = []
  for (let i = 1; i < misfit.length - 1; i++) {
    const [before, here, after] = [misfit[i - 1]!, misfit[i]!, misfit[i + 1]!]
    if (here > before || here >= after) continue
    const shift = parabolaPeak(-before, -here, -after)
    peaks.push({
      rateRadPerSecond: (i - half + shift) * step,
      misfitPx2: here + ((after - before) * shift) / 4,
    })
  }
  return peaks
}

/** The misfit at rates −half·step … half·step. Phasors are turned from rate to rate, not computed anew. */
function misfitOnGrid(b: Bearings, half: number, step: number, middle: number): Float64Array {
  const misfit = new Float64Array(2 * half + 1)
  const own = new Int32Array(b.count)
  for (let mark = 0; mark <= Math.max(...b.mark); mark++) {
    let n = 0
    for (let k = 0; k < b.count; k++) if (b.mark[k] === mark) own[n++] = k
    const cosine = new Float64Array(n)
    const sine = new Float64Array(n)
    const turnCos = new Float64Array(n)
    const turnSin = new Float64Array(n)
    let total = 0
    for (let j = 0; j < n; j++) {
      const k = own[j]!
      const order = (2 * Math.PI) / b.periodRad[k]!
      const information = (b.pxPerRad[k]! / order) ** 2
      const t = b.timeSeconds[k]! - middle
      const start = order * (b.bearingRad[k]! + half * step * t)
      cosine[j] = information * Math.cos(start)
      sine[j] = information * Math.sin(start)
      turnCos[j] = Math.cos(order * step * t)
      turnSin[j] = -Math.sin(order * step * t)
      total += information
    }
    for (let i = 0; i < misfit.length; i++) {
      let real = 0
      let imaginary = 0
      for (let j = 0; j < n; j++) {
        const c = cosine[j]!
        const s = sine[j]!
        real += c
        imaginary += s
        cosine[j] = c * turnCos[j]! - s * turnSin[j]!
        sine[j] = c * turnSin[j]! + s * turnCos[j]!
      }
      misfit[i]! += 2 * (total - Math.sqrt(real * real + imaginary * imaginary))
    }
  }
  return misfit
}
