import { describe, expect, it } from 'vitest'
import type { Bearings } from '../../../core/spin/bearings-of.ts'
import { type FitOptions, fitBearings } from '../../../core/spin/fit-bearings.ts'
import { peaksOf } from '../../../core/spin/periodogram.ts'
import { chanceOf } from '../../bench/simulate/random.ts'

/** Bearings offset + rate·t of two marks, orders 1 and 2, 24 frames at 240 fps, with noise of so many px. */
function made(rate: number, noisePx = 0, seed = 1): Bearings {
  const { normal } = chanceOf(seed)
  const count = 48
  const mark = Int32Array.from({ length: count }, (_, k) => k % 2)
  const timeSeconds = Float64Array.from({ length: count }, (_, k) => Math.floor(k / 2) / 240)
  const pxPerRad = Float64Array.from({ length: count }, (_, k) => (k % 2 === 0 ? 20 : 30))
  return {
    count,
    mark,
    timeSeconds,
    pxPerRad,
    bearingRad: timeSeconds.map(
      (t, k) => [0.5, -1.2][mark[k]!]! + rate * t + (noisePx > 0 ? normal(noisePx) / pxPerRad[k]! : 0),
    ),
    periodRad: Float64Array.from(mark, m => [2 * Math.PI, Math.PI][m]!),
    marksSeen: 2,
  }
}
const plain: FitOptions = { timeErrorSeconds: 0, clickPx: 1, corner: Number.POSITIVE_INFINITY }

describe('all rates that line bearings up', () => {
  it.each([244, -131, 0])('hold the true one, %d rad/s, with nothing left of it', rate => {
    const b = made(rate)
    const best = peaksOf(b, 600).toSorted((p, q) => p.misfitPx2 - q.misfitPx2)[0]!
    expect(Math.abs(best.rateRadPerSecond - rate)).toBeLessThan(1)
    // Of Σρ² = 24·(400 + 900) px² that bearings all over would leave, next to nothing.
    expect(best.misfitPx2).toBeLessThan(0.01 * 24 * 1300)
  })
  it('have the misfit that is Σρ²·residual² for small residuals', () => {
    const b = made(244, 0.3, 5)
    const best = peaksOf(b, 600).toSorted((p, q) => p.misfitPx2 - q.misfitPx2)[0]!
    const fit = fitBearings(b, best.rateRadPerSecond, plain)!
    const left = fit.residualRad.reduce((sum, each, k) => sum + (b.pxPerRad[k]! * each) ** 2, 0)
    // The peak is that of a parabola through three rates, a fifth of a resolution apart.
    expect(best.misfitPx2 / left).toBeGreaterThan(0.8)
    expect(best.misfitPx2 / left).toBeLessThan(3)
  })
  it('of a line that repeats twice a turn come every half turn a frame', () => {
    const b = made(100)
    const line = { ...b, mark: new Int32Array(48), periodRad: new Float64Array(48).fill(Math.PI) }
    const own = Float64Array.from(b.timeSeconds, t => 100 * t)
    const sharp = peaksOf({ ...line, bearingRad: own, marksSeen: 1 }, 2000)
      .filter(peak => peak.misfitPx2 < 100)
      .map(peak => Math.round(peak.rateRadPerSecond))
    // 2π·240/2 = 754 rad/s apart, from −2000 to 2000.
    expect(sharp).toEqual([-1408, -654, 100, 854, 1608])
  })
  it('reach as far as the largest asked for, either way, and little further', () => {
    const b = made(10)
    const span = 23 / 240
    // One step beyond at most: a fifth of π over the span.
    const rates = peaksOf(b, 3100).map(peak => peak.rateRadPerSecond)
    expect(Math.max(...rates)).toBeLessThan(3100 + (2 * Math.PI) / (5 * span))
    expect(rates.some(rate => Math.abs(rate - (10 + 480 * Math.PI)) < 1)).toBe(true)
    expect(rates.some(rate => Math.abs(rate - (10 - 480 * Math.PI)) < 1)).toBe(true)
  })
})

describe('a line through bearings', () => {
  it('comes back from bearings on it, from a start that is off by half a turn over the hit', () => {
    const fit = fitBearings(made(244), 244 + 15, plain)!
    expect(fit.rateRadPerSecond).toBeCloseTo(244, 9)
    expect(fit.offsetRad[0]).toBeCloseTo(0.5, 9)
    // Modulo the line's half turn.
    expect(Math.cos(2 * (fit.offsetRad[1]! + 1.2))).toBeCloseTo(1, 9)
    expect(fit.sumOfSquaresPx2).toBeLessThan(1e-12)
    expect(fit.redundancy).toBeCloseTo(48 - 3, 9)
  })
  it('knows its rate as the law of a straight line says: Σρ²(t − t̄)²', () => {
    const { spread } = fitBearings(made(244), 244, plain)!
    // 24 even frames, 1/240 s apart: Σ(i − 11.5)² = 24·(24² − 1)/12 = 1150.
    expect(spread).toBeCloseTo((1300 * 1150) / 240 ** 2, 6)
  })
  it('weighs a time error as rate·τ beside the click’s σ/ρ', () => {
    const { information } = fitBearings(made(244), 244, { ...plain, timeErrorSeconds: 1e-4, clickPx: 0.5 })!
    expect(information[0]).toBeCloseTo(1 / (1 / 400 + (244 * 1e-4) ** 2 / 0.25), 6)
    expect(information[1]).toBeCloseTo(1 / (1 / 900 + (244 * 1e-4) ** 2 / 0.25), 6)
  })
  it('takes the weight of a bearing that is far off, and moves by what its leverage says for one that is not', () => {
    const b = made(244, 0.5, 7)
    const robust = { ...plain, corner: 3.5 }
    const clean = fitBearings(b, 244, robust)!
    const wrong = { ...b, bearingRad: b.bearingRad.slice() }
    wrong.bearingRad[10]! += 1
    const fit = fitBearings(wrong, 244, robust)!
    expect(fit.weight[10]).toBe(0)
    expect(fit.redundancy).toBeCloseTo(clean.redundancy - 1, 6)
    expect(Math.abs(fit.rateRadPerSecond - clean.rateRadPerSecond)).toBeLessThan(0.2)
    const nudged = { ...b, bearingRad: b.bearingRad.slice() }
    nudged.bearingRad[45]! += 1e-4
    const moved =
      fitBearings(nudged, 244, plain)!.rateRadPerSecond - fitBearings(b, 244, plain)!.rateRadPerSecond
    expect(moved / 1e-4).toBeCloseTo(fitBearings(b, 244, plain)!.leverage[45]!, 6)
  })
  it('is none where no mark was seen at two times', () => {
    const b = made(244)
    expect(fitBearings({ ...b, timeSeconds: new Float64Array(48).fill(0.1) }, 244, plain)).toBeNull()
  })
})
