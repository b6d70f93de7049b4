import type { Spread } from '../contract/study.ts'
import { chiSquareQuantile } from '../numerics/chi-square.ts'
import { mean } from './study-cells.ts'

export const level = 0.95
/** The normal quantile at (1 + level)/2. */
const z = 1.959964

/** Sums over cells of products of deviations from the cell's mean, and their degrees of freedom. */
export type Within = { xx: number; yy: number; xy: number; dof: number }

/**
 * Pooled deviations within cells of pairs (x, y): for two markings a cell, half of Σd².
 * Source: ISO 5725-2:1994, 7.4.5.1 (s_r² as the pooled variance within cells).
 */
export function withinCells(cells: readonly (readonly (readonly [x: number, y: number])[])[]): Within {
  const sums: Within = { xx: 0, yy: 0, xy: 0, dof: 0 }
  for (const cell of cells) {
    const [x, y] = [mean(cell.map(each => each[0])), mean(cell.map(each => each[1]))]
    for (const each of cell) {
      sums.xx += (each[0] - x) ** 2
      sums.yy += (each[1] - y) ** 2
      sums.xy += (each[0] - x) * (each[1] - y)
    }
    sums.dof += Math.max(cell.length - 1, 0)
  }
  return sums
}

/**
 * One coordinate's standard deviation from both, √((s_x² + s_y²)/2). Its degrees of freedom are those of
 * the trace of a 2 × 2 matrix of covariances S: ν·(tr S)²/tr(S²), twice ν when clicks scatter alike in
 * every direction, ν when along one line only (Welch–Satterthwaite over the principal directions).
 */
export function pooledSpread({ xx, yy, xy, dof }: Within): Spread {
  const trace = xx + yy
  const squares = xx ** 2 + yy ** 2 + 2 * xy ** 2
  return spreadOf(trace / (2 * dof), squares > 0 ? (dof * trace ** 2) / squares : 2 * dof)
}

/**
 * A standard deviation with its 95 % interval: √(ν·s²/χ²) at both quantiles of χ² (ISO 2854:1976, table F;
 * the quantiles are within 1 % from ν = 10 on, and fewer are not shown).
 */
export const spreadOf = (variance: number, dof: number): Spread => ({
  standardDeviation: Math.sqrt(variance),
  low: Math.sqrt((variance * dof) / chiSquareQuantile(z, dof)),
  high: Math.sqrt((variance * dof) / chiSquareQuantile(-z, dof)),
  level,
  effectiveDof: dof,
})
