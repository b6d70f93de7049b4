import type { StudyItem, StudyRemark } from '../contract/study.ts'
import { wrapAngle } from '../numerics/wrap-angle.ts'
import { radOfDeg } from '../units/angle.ts'

/** All markings of one item by one person ("cell" in ISO 5725-2, 7.2.1), in the order they were made. */
export type Cell = {
  item: StudyItem
  person: string
  /** Places, px; empty where the mark is followed as a direction. */
  points: { xPx: number; yPx: number }[]
  /** Bearings, radians, unwrapped about the first; empty where no outline says what they turn about. */
  bearingsRad: number[]
  /** Mean distance of the places from the ball's centre, px; null without an outline or places. */
  fromCentrePx: number | null
  /** Bearings of a direction repeat after this angle. */
  periodRad: number
}

export const keyOf = ({ hit, frame, mark }: StudyItem): string => JSON.stringify([hit, frame, mark])

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length

/** Markings gathered by person and item, in order of first sight. Marks that were not found are left out. */
export function cellsOf(remarks: readonly StudyRemark[]): Cell[] {
  const groups = new Map<string, StudyRemark[]>()
  for (const remark of remarks) {
    if (remark.seen.kind === 'unseen') continue
    const key = `${keyOf(remark)} ${remark.person}`
    groups.set(key, [...(groups.get(key) ?? []), remark])
  }
  return [...groups.values()].map(cellOf)
}

function cellOf(remarks: StudyRemark[]): Cell {
  const { hit, frame, mark, person, symmetryOrder } = remarks[0]!
  const points = remarks.flatMap(({ seen }) =>
    seen.kind === 'point' ? [{ xPx: seen.xPx, yPx: seen.yPx }] : [],
  )
  const outline = remarks.find(remark => remark.outline !== null)?.outline ?? null
  // A place is one place whatever the mark looks like; only a direction has look-alikes.
  const periodRad = points.length > 0 ? 2 * Math.PI : (2 * Math.PI) / symmetryOrder
  const bearings =
    points.length === 0
      ? remarks.flatMap(({ seen }) => (seen.kind === 'direction' ? [radOfDeg(seen.bearingDeg)] : []))
      : outline === null
        ? []
        : points.map(({ xPx, yPx }) => Math.atan2(yPx - outline.yPx, xPx - outline.xPx))
  return {
    item: { hit, frame, mark },
    person,
    points,
    bearingsRad: bearings.map(rad => bearings[0]! + wrapAngle(rad - bearings[0]!, periodRad)),
    fromCentrePx:
      outline === null || points.length === 0
        ? null
        : mean(points.map(({ xPx, yPx }) => Math.hypot(xPx - outline.xPx, yPx - outline.yPx))),
    periodRad,
  }
}
