import type { Repeatability, StudyRemark } from '../contract/study.ts'
import { degOfRad } from '../units/angle.ts'
import { type Cell, cellsOf } from './study-cells.ts'
import { outlyingCells } from './study-outlying.ts'
import { pooledSpread, spreadOf, withinCells } from './study-spread.ts'

/** Fewer second markings than this say too little: ten leave a third of the figure open either way. */
export const fewestPairs = 10
/** A mark nearer to the centre than this many click errors has no bearing worth the name. */
const clearOfCentre = 3

const squaresOf = ({ points, bearingsRad }: Cell) => {
  const places =
    points.length > 0 ? points.map(p => [p.xPx, p.yPx] as const) : bearingsRad.map(b => [b, 0] as const)
  const { xx, yy, dof } = withinCells([places])
  return { sumOfSquares: xx + yy, dof: points.length > 0 ? 2 * dof : dof }
}
const placesOf = (cell: Cell) => cell.points.map(({ xPx, yPx }) => [xPx, yPx] as const)
const farthestApart = ({ points }: Cell): number =>
  Math.max(0, ...points.flatMap(a => points.map(b => Math.hypot(a.xPx - b.xPx, a.yPx - b.yPx))))

/** One person's own click error, from all markings of things that this person marked more than once. */
export function repeatabilityOf(person: string, remarks: readonly StudyRemark[]): Repeatability {
  const own = remarks.filter(remark => remark.person === person)
  const cells = cellsOf(own)
  const twice = cells.filter(cell => Math.max(cell.points.length, cell.bearingsRad.length) > 1)
  const placed = twice.filter(cell => cell.points.length > 1)
  const within = withinCells(placed.map(placesOf))
  const pairs = twice.reduce(
    (sum, cell) => sum + Math.max(cell.points.length, cell.bearingsRad.length) - 1,
    0,
  )
  const enough = within.dof >= fewestPairs
  const found = outlyingCells(placed.map(squaresOf))
  const outliers = new Set(found.filter(({ grade }) => grade === 'outlier').map(({ index }) => index))
  const rest = withinCells(placed.filter((_, i) => !outliers.has(i)).map(placesOf))
  const px = enough ? pooledSpread(within) : null
  return {
    person,
    remarks: own.length,
    unseen: own.filter(({ seen }) => seen.kind === 'unseen').length,
    items: cells.length,
    pairs,
    px,
    xPx: enough ? Math.sqrt(within.xx / within.dof) : null,
    yPx: enough ? Math.sqrt(within.yy / within.dof) : null,
    bearingDeg: bearingSpread(twice, px?.standardDeviation ?? null),
    outlying: enough
      ? found.map(({ index, grade }) => ({
          ...placed[index]!.item,
          apartPx: farthestApart(placed[index]!),
          grade,
        }))
      : [],
    withoutOutlyingPx:
      enough && outliers.size > 0 && rest.dof > 0 ? pooledSpread(rest).standardDeviation : null,
    reason: reasonOf(pairs, placed.length > 0 || twice.length === 0, within.dof),
  }
}

/** Directions as they were laid, and places about the ball's centre: σ/ρ for a mark ρ from the centre. */
function bearingSpread(twice: Cell[], clickPx: number | null) {
  const sound = twice.filter(
    ({ points, fromCentrePx }) =>
      points.length === 0 || (clickPx !== null && (fromCentrePx ?? 0) > clearOfCentre * clickPx),
  )
  const { xx, dof } = withinCells(sound.map(cell => cell.bearingsRad.map(rad => [degOfRad(rad), 0] as const)))
  return dof >= fewestPairs ? spreadOf(xx / dof, dof) : null
}

function reasonOf(pairs: number, hasPlaces: boolean, placePairs: number): string | null {
  if (placePairs >= fewestPairs) return null
  if (!hasPlaces && pairs >= fewestPairs)
    return 'The marks are followed as directions: their error is an angle, it has no pixels.'
  return `${placePairs === 1 ? 'One mark has' : `${placePairs} marks have`} been placed twice; from ${fewestPairs} on it says something.`
}
