import type { TestDay } from '../contract/test-day.ts'
import { seededRandom } from '../numerics/seeded-random.ts'

export type Turn = { paddle: string; hits: number; isReference: boolean; freshBall: boolean }
export type DayBlock = { turns: Turn[] }

/**
 * Which paddle when: every block holds every paddle once and the reference, in an order by chance, so that
 * fatigue, a wearing ball and the sun favour nobody (randomised complete blocks: R. A. Fisher, The Design of
 * Experiments, 1935). The hits of a paddle are spread evenly over the blocks. The same seed gives the same order.
 */
export function testDayOf(day: TestDay): DayBlock[] {
  const chance = seededRandom(day.seed)
  let sinceFresh = Number.POSITIVE_INFINITY
  return Array.from({ length: day.blocks }, (_, block) => {
    const hits = shareOf(day.hitsEach, block, day.blocks)
    const names = shuffled([...day.paddles, day.reference], chance)
    const turns = names.map((paddle): Turn => {
      const freshBall = day.ballChangeAfter !== null && sinceFresh + hits > day.ballChangeAfter
      sinceFresh = freshBall ? hits : sinceFresh + hits
      return { paddle, hits, isReference: paddle === day.reference, freshBall }
    })
    return { turns }
  })
}

/** The part of a whole number that falls to one of so many blocks; the parts differ by one at most. */
const shareOf = (whole: number, block: number, blocks: number): number =>
  Math.floor((whole * (block + 1)) / blocks) - Math.floor((whole * block) / blocks)

/** Every order is as likely as another (R. Durstenfeld, Comm. ACM 7 (1964) 420). */
function shuffled<T>(things: T[], chance: () => number): T[] {
  for (let last = things.length - 1; last > 0; last--) {
    const other = Math.floor(chance() * (last + 1))
    ;[things[last], things[other]] = [things[other]!, things[last]!]
  }
  return things
}
