import { describe, expect, it } from 'vitest'
import { straightLine } from '../../core/numerics/straight-line.ts'
import { studentT } from '../../core/numerics/student-t.ts'
import { welchSatterthwaite } from '../../core/numerics/welch-satterthwaite.ts'
import { pixelGridPx } from '../../core/spin/assumptions.ts'
import { countedHalfWidthFrames } from '../../core/spin/count.ts'

describe('JCGM 100:2008 (GUM)', () => {
  // H.3, table H.6: thermometer corrections b at 11 readings t; straight line b = y1 + y2(t − 20 °C).
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511]
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16]
  const line = straightLine(
    t.map(x => x - 20),
    b,
  )!
  const variance = line.weightedSumOfSquares / 9

  it('H.3: intercept and slope of the calibration line', () => {
    expect(line.intercept).toBeCloseTo(-0.1712, 4)
    expect(line.slope).toBeCloseTo(0.00218, 5)
  })
  it('H.3: their standard uncertainties and correlation', () => {
    expect(Math.sqrt(variance * line.varianceIntercept)).toBeCloseTo(0.0029, 4)
    expect(Math.sqrt(variance * line.varianceSlope)).toBeCloseTo(0.00067, 5)
    const correlation = line.covariance / Math.sqrt(line.varianceIntercept * line.varianceSlope)
    expect(correlation).toBeCloseTo(-0.93, 3)
  })
  it('H.3: the line read at 30 °C has the correction −0.1494 and the uncertainty 0.0041', () => {
    const u = variance * (line.varianceIntercept + 100 * line.varianceSlope + 20 * line.covariance)
    expect(line.intercept + 10 * line.slope).toBeCloseTo(-0.1494, 4)
    expect(Math.sqrt(u)).toBeCloseTo(0.0041, 4)
  })

  it('4.3.7: a rectangular law of half-width a has a/√3, so a pixel 1/√12', () => {
    expect(pixelGridPx).toBeCloseTo(0.5 / Math.sqrt(3), 12)
  })
  it('4.3.9: a triangular law within ±1 frame has 1/√6, and 95 % of it lies within ±0.776', () => {
    // P(|x| < h) = 1 − (1 − h)² for the triangle on (−1, 1).
    expect(1 - (1 - countedHalfWidthFrames) ** 2).toBeCloseTo(0.95, 12)
    expect(countedHalfWidthFrames).toBeCloseTo(0.776, 3)
    const steps = 200_000
    let variance = 0
    for (let i = 0; i < steps; i++) {
      const x = (2 * (i + 0.5)) / steps - 1
      variance += (x * x * (1 - Math.abs(x)) * 2) / steps
    }
    expect(Math.sqrt(variance)).toBeCloseTo(1 / Math.sqrt(6), 6)
  })

  it('G.4.1 example: three inputs seen 10, 5 and 15 times, 0.25 %, 0.57 % and 0.82 %, have ν_eff = 19.0', () => {
    const relative = [
      { standardUncertainty: 0.25, degreesOfFreedom: 9 },
      { standardUncertainty: 0.57, degreesOfFreedom: 4 },
      { standardUncertainty: 0.82, degreesOfFreedom: 14 },
    ]
    expect(welchSatterthwaite(relative)).toBeCloseTo(19, 1)
    expect(studentT(0.975, 19)).toBeCloseTo(2.09, 2)
  })
})

describe('NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, critical values of t', () => {
  it.each([
    [1, 12.706],
    [2, 4.303],
    [4, 2.776],
    [10, 2.228],
    [22, 2.074],
    [30, 2.042],
    [60, 2.0],
    [100, 1.984],
    [Number.POSITIVE_INFINITY, 1.96],
  ])('ν = %d: %d at 97.5 %', (degreesOfFreedom, t) => {
    expect(studentT(0.975, degreesOfFreedom)).toBeCloseTo(t, 3)
  })
})
