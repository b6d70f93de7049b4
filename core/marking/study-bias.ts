import type { Difference, StudyBias, StudyRemark } from '../contract/study.ts'
import { studentT } from '../numerics/student-t.ts'
import { wrapAngle } from '../numerics/wrap-angle.ts'
import { degOfRad } from '../units/angle.ts'
import { type Cell, cellsOf, keyOf, mean } from './study-cells.ts'
import { fewestPairs } from './study-repeatability.ts'
import { level } from './study-spread.ts'

/**
 * The mean of differences between paired values, with its standard uncertainty s_d/√n and the expanded one
 * t·s_d/√n (JCGM 100:2008, 4.2.3 and G.3).
 */
export function meanDifference(differences: readonly number[]): Difference {
  const n = differences.length
  const centre = mean(differences)
  const variance = differences.reduce((sum, d) => sum + (d - centre) ** 2, 0) / (n - 1)
  const standardUncertainty = Math.sqrt(variance / n)
  const expandedUncertainty = studentT((1 + level) / 2, n - 1) * standardUncertainty
  return { mean: centre, standardUncertainty, expandedUncertainty, level }
}

/**
 * How one person marks on the average against another, over the items that both have marked: the mean of
 * `person` − `against` (the laboratory component of bias of ISO 5725-1, 3.10, as a difference of two).
 */
export function biasOf(person: string, against: string, remarks: readonly StudyRemark[]): StudyBias {
  const cells = cellsOf(remarks)
  const others = new Map(
    cells.filter(cell => cell.person === against).map(cell => [keyOf(cell.item), cell] as const),
  )
  const both = cells
    .filter(cell => cell.person === person)
    .flatMap((cell): [Cell, Cell][] => {
      const other = others.get(keyOf(cell.item))
      return other ? [[cell, other]] : []
    })
  const placed = both.filter(([a, b]) => a.points.length > 0 && b.points.length > 0)
  const along = (of: 'xPx' | 'yPx') =>
    placed.map(([a, b]) => mean(a.points.map(p => p[of])) - mean(b.points.map(p => p[of])))
  const turned = both
    .filter(([a, b]) => a.bearingsRad.length > 0 && b.bearingsRad.length > 0)
    .map(([a, b]) => degOfRad(wrapAngle(mean(a.bearingsRad) - mean(b.bearingsRad), a.periodRad)))
  const shown = (differences: number[]) =>
    differences.length >= fewestPairs ? meanDifference(differences) : null
  return {
    person,
    against,
    items: both.length,
    xPx: shown(along('xPx')),
    yPx: shown(along('yPx')),
    bearingDeg: shown(turned),
    reason:
      both.length >= fewestPairs
        ? null
        : `${both.length === 1 ? 'One mark has' : `${both.length} marks have`} been placed by both; from ${fewestPairs} on it says something.`,
  }
}
