import { describe, expect, it } from 'vitest'
import { linearLeastSquares } from '../../core/numerics/linear-least-squares.ts'
import { straightLine } from '../../core/numerics/straight-line.ts'
import { digitsThatAgree, longley, norris } from './nist-strd.ts'

describe('NIST StRD, linear least squares', () => {
  it('Norris: slope, intercept and their standard deviations', () => {
    const line = straightLine(
      norris.map(([x]) => x),
      norris.map(([, y]) => y),
    )!
    const variance = line.weightedSumOfSquares / (norris.length - 2)
    expect(digitsThatAgree(line.intercept, -0.262323073774029)).toBeGreaterThan(11)
    expect(digitsThatAgree(line.slope, 1.00211681802045)).toBeGreaterThan(12)
    expect(digitsThatAgree(Math.sqrt(variance), 0.884796396144373)).toBeGreaterThan(12)
    expect(digitsThatAgree(Math.sqrt(variance * line.varianceIntercept), 0.232818234301152)).toBeGreaterThan(
      12,
    )
    expect(digitsThatAgree(Math.sqrt(variance * line.varianceSlope), 0.429796848199937e-3)).toBeGreaterThan(
      12,
    )
  })

  it('Longley: seven coefficients of a nearly dependent design, and their standard deviations', () => {
    const fit = linearLeastSquares(
      longley.flatMap(([, ...x]) => [1, ...x]),
      longley.map(([y]) => y!),
      7,
    )!
    const variance = fit.sumOfSquares / (longley.length - 7)
    const certified = [
      [-3482258.63459582, 890420.383607373],
      [15.0618722713733, 84.9149257747669],
      [-0.35819179292591e-1, 0.334910077722432e-1],
      [-2.02022980381683, 0.488399681651699],
      [-1.03322686717359, 0.214274163161675],
      [-0.511041056535807e-1, 0.22607320006937],
      [1829.15146461355, 455.478499142212],
    ]
    certified.forEach(([estimate, deviation], i) => {
      expect(digitsThatAgree(fit.coefficients[i]!, estimate!)).toBeGreaterThan(9)
      expect(digitsThatAgree(Math.sqrt(variance * fit.covariance[i * 7 + i]!), deviation!)).toBeGreaterThan(9)
    })
  })

  it('Wampler1: a polynomial of degree 5 over 0 to 20 whose coefficients all are 1', () => {
    const x = Array.from({ length: 21 }, (_, i) => i)
    const powers = x.flatMap(v => [0, 1, 2, 3, 4, 5].map(k => v ** k))
    const y = x.map(v => [0, 1, 2, 3, 4, 5].reduce((sum, k) => sum + v ** k, 0))
    const fit = linearLeastSquares(powers, y, 6)!
    for (const coefficient of fit.coefficients) expect(digitsThatAgree(coefficient, 1)).toBeGreaterThan(8)
  })
})
