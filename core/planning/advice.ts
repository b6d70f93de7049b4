import type { PlanSetUp } from '../contract/plan.ts'
import type { Reading } from '../contract/reading.ts'
import { type Change, changesTo } from './changes.ts'
import { expectedReading, halfWidthOf } from './expected-reading.ts'

/** A change helps when it mends the flag, or takes a tenth off the band. */
const worthwhile = 0.9
const mostAdvice = 4

const grades: Record<Reading['flag'], number> = {
  clear: 0,
  'near-ceiling': 1,
  ambiguous: 2,
  'too-few-frames': 2,
}
const gradeOf = (reading: Reading): number => (reading.rpm === null ? 3 : grades[reading.flag])
const widthOf = (reading: Reading): number => halfWidthOf(reading) ?? Number.POSITIVE_INFINITY

/**
 * What to change, the most helpful first: each change is tried by itself on imagined hits, with what it does in
 * numbers. Empty where nothing helps enough.
 */
export function adviceFor(setUp: PlanSetUp, now: Reading): string[] {
  return changesTo(setUp)
    .map(change => ({ change, after: expectedReading(change.setUp, 3) }))
    .filter(
      ({ after }) =>
        gradeOf(after) < gradeOf(now) ||
        (gradeOf(after) === gradeOf(now) && widthOf(after) < worthwhile * widthOf(now)),
    )
    .sort((a, b) => gradeOf(a.after) - gradeOf(b.after) || widthOf(a.after) - widthOf(b.after))
    .slice(0, mostAdvice)
    .map(({ change, after }) => sentenceOf(change, now, after))
}

const flagWords: Record<Reading['flag'], string> = {
  clear: 'clear',
  'near-ceiling': 'near its ceiling',
  ambiguous: 'ambiguous',
  'too-few-frames': 'too thin',
}

function sentenceOf({ words, costs }: Change, before: Reading, after: Reading): string {
  const [was, is] = [halfWidthOf(before), halfWidthOf(after)]
  const band = is === null ? '' : was === null ? `±${rpm(is)}` : `±${rpm(is)} instead of ±${rpm(was)}`
  const parts = [
    after.flag === before.flag && was !== null ? '' : `a reading is then ${flagWords[after.flag]}`,
    band === '' ? '' : `the band ${band} rpm`,
    costs,
  ].filter(part => part !== '')
  return `${words}: ${parts.join('; ')}.`
}

/** Two digits of a half-width. */
export const rpm = (value: number): string => value.toFixed(value < 9.95 ? 1 : 0)
