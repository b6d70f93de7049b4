import type { StudyDot, StudyRemark, StudyReport } from '../contract/study.ts'
import { biasOf } from './study-bias.ts'
import { cellsOf, keyOf } from './study-cells.ts'
import { studyFigures } from './study-figures.ts'

/** The name under which the marks on the bench are compared; no person's, as names are not empty. */
const bench = ''

/**
 * A session's figures for the page: those of all studies, each person against the marks that stand on the
 * bench, and every second marking as a dot where the first is the origin.
 */
export function studyReport(
  remarks: readonly StudyRemark[],
  onBench: readonly Omit<StudyRemark, 'person'>[],
): StudyReport {
  const figures = studyFigures(remarks)
  const withBench = [...remarks, ...onBench.map(remark => ({ ...remark, person: bench }))]
  const outlying = new Set(
    figures.people.flatMap(({ person, outlying }) => outlying.map(item => `${keyOf(item)} ${person}`)),
  )
  return {
    ...figures,
    bench: figures.people.map(({ person }) => ({
      ...biasOf(person, bench, withBench),
      against: 'the marks on the bench',
    })),
    dots: cellsOf(remarks).flatMap(({ points, person, item }): StudyDot[] =>
      points.slice(1).map(({ xPx, yPx }) => ({
        person,
        dxPx: xPx - points[0]!.xPx,
        dyPx: yPx - points[0]!.yPx,
        outlying: outlying.has(`${keyOf(item)} ${person}`),
      })),
    ),
  }
}
