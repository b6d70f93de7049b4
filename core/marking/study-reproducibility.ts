import type { Reproducibility, StudyRemark } from '../contract/study.ts'
import { type Cell, cellsOf, keyOf, mean } from './study-cells.ts'
import { fewestPairs } from './study-repeatability.ts'

/** Variances of ISO 5725-2 of one quantity: within cells, between people, and of any one result. */
export type Components = { repeatability: number | null; between: number | null; reproducibility: number }

/**
 * s_r², s_L² and s_R² of ISO 5725-2:1994, 7.4.5 (equations 20 to 24), pooled over levels that are taken to
 * scatter alike. A negative s_L² counts as 0. With one result a cell only s_R² can be told.
 *
 * @param levels results by level, person and repetition; every level has two people or more
 */
export function componentsOf(levels: readonly (readonly (readonly number[])[])[]): Components {
  let [within, dof, between, reproduced] = [0, 0, 0, 0]
  for (const cells of levels)
    for (const cell of cells) {
      const centre = mean(cell)
      within += cell.reduce((sum, value) => sum + (value - centre) ** 2, 0)
      dof += cell.length - 1
    }
  const repeatability = dof > 0 ? within / dof : null
  for (const cells of levels) {
    const counts = cells.map(cell => cell.length)
    const all = counts.reduce((sum, n) => sum + n, 0)
    const grand = mean(cells.flat())
    const p = cells.length
    const ofMeans = cells.reduce((sum, cell) => sum + cell.length * (mean(cell) - grand) ** 2, 0) / (p - 1)
    const meanCount = (all - counts.reduce((sum, n) => sum + n * n, 0) / all) / (p - 1)
    between += (ofMeans - (repeatability ?? 0)) / meanCount / levels.length
    reproduced += ofMeans / meanCount / levels.length
  }
  if (repeatability === null) return { repeatability, between: null, reproducibility: reproduced }
  const kept = Math.max(between, 0)
  return { repeatability, between: kept, reproducibility: repeatability + kept }
}

/** How far the markings of different people scatter, over the places that all of them have marked. */
export function reproducibilityOf(
  people: readonly string[],
  remarks: readonly StudyRemark[],
): Reproducibility {
  const byItem = new Map<string, Cell[]>()
  for (const cell of cellsOf(remarks)) {
    if (!people.includes(cell.person) || cell.points.length === 0) continue
    byItem.set(keyOf(cell.item), [...(byItem.get(keyOf(cell.item)) ?? []), cell])
  }
  const shared = [...byItem.values()].filter(cells => cells.length === people.length)
  const items = shared.length
  if (items < fewestPairs)
    return {
      people: people.length,
      items,
      betweenPeoplePx: null,
      reproducibilityPx: null,
      reason: `${items === 1 ? 'One mark has' : `${items} marks have`} been placed by all; from ${fewestPairs} on it says something.`,
    }
  const [x, y] = (['xPx', 'yPx'] as const).map(of =>
    componentsOf(shared.map(cells => cells.map(cell => cell.points.map(point => point[of])))),
  ) as [Components, Components]
  return {
    people: people.length,
    items,
    betweenPeoplePx: x.between === null || y.between === null ? null : Math.sqrt((x.between + y.between) / 2),
    reproducibilityPx: Math.sqrt((x.reproducibility + y.reproducibility) / 2),
    reason:
      x.between === null
        ? 'Nobody marked anything twice: what is each person’s own scatter cannot be told apart.'
        : null,
  }
}
