import { randomStudentT } from '../../../core/numerics/random-student-t.ts'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'

/** Seeded chance: the same season every time. */
export type Chance = {
  /** Even from 0 to below 1. */
  share: () => number
  between: (low: number, high: number) => number
  normal: (standardDeviation: number) => number
  pick: <T>(from: readonly T[]) => T
}

export function chanceOf(seed: number): Chance {
  const share = seededRandom(seed)
  return {
    share,
    between: (low, high) => low + (high - low) * share(),
    normal: sd => sd * randomStudentT(share, Number.POSITIVE_INFINITY),
    pick: from => from[Math.floor(share() * from.length)]!,
  }
}
