import type { StudyRemark } from '../../../core/contract/study.ts'

/** Evenly in [0, 1), the same for the same seed: G. Marsaglia's xorshift32 (J. Stat. Softw. 8 (2003) 14). */
export function chanceOf(seed: number): () => number {
  let state = (seed * 2654435761) >>> 0 || 1
  const next = () => {
    state ^= state << 13
    state ^= state >>> 17
    state = (state ^ (state << 5)) >>> 0
    return state / 2 ** 32
  }
  for (let i = 0; i < 8; i++) next()
  return next
}

/** The normal law from two even ones (Box and Muller, Ann. Math. Stat. 29 (1958) 610). */
export const normalOf = (chance: () => number) => (sd: number) =>
  sd * Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())

export const outline = { xPx: 400, yPx: 300, radiusPx: 45 }

type Scene = {
  items: number
  people: { person: string; sdPx: number; shift?: { xPx: number; yPx: number }; times: number }[]
  /** How far each person marks off on each item alike, px. */
  betweenSdPx?: number
  fromCentrePx?: number
}

/** Marks at a known distance from the centre, clicked by people of known scatter and shift. */
export function remarksOf(scene: Scene, normal: (sd: number) => number): StudyRemark[] {
  const { items, people, betweenSdPx = 0, fromCentrePx = 25 } = scene
  return Array.from({ length: items }, (_, frame) => {
    const bearing = frame * 1.0167
    const truth = {
      xPx: outline.xPx + fromCentrePx * Math.cos(bearing),
      yPx: outline.yPx + fromCentrePx * Math.sin(bearing),
    }
    return people.flatMap(({ person, sdPx, shift = { xPx: 0, yPx: 0 }, times }) => {
      const own = { xPx: normal(betweenSdPx), yPx: normal(betweenSdPx) }
      return Array.from({ length: times }, (): StudyRemark => {
        const xPx = truth.xPx + shift.xPx + own.xPx + normal(sdPx)
        const yPx = truth.yPx + shift.yPx + own.yPx + normal(sdPx)
        const item = { hit: 'h', frame, mark: 'logo' }
        return { ...item, person, symmetryOrder: 1, outline, seen: { kind: 'point', xPx, yPx } }
      })
    })
  }).flat()
}
