import { expectedReading, halfWidthOf } from '../../../core/planning/expected-reading.ts'
import { readMarks } from '../../../core/spin/read-marks.ts'
import { benchSetUps } from './set-ups.ts'
import { simulateSetUp } from './simulate-set-up.ts'

type Row = {
  name: string
  expected: number
  simulated: number
  error95: number
  flag: string
  sameFlag: number
}

const at = (sorted: number[], share: number) => sorted[Math.floor(share * (sorted.length - 1))]!
const rising = (values: number[]) => values.sort((a, b) => a - b)

/**
 * What the planner expects against what hits of each set-up give: the median half-width of their bands, the 95th
 * percentile of their errors, and how many have the flag that the plan has. All in rpm.
 */
function rowOf(name: string, hits: number): Row {
  const setUp = benchSetUps[name]!
  const expected = expectedReading(setUp)
  const read = Array.from({ length: hits }, (_, i) => {
    const { document, truthRpm } = simulateSetUp(setUp, i + 1)
    return { reading: readMarks(document), truthRpm }
  })
  const never = Number.POSITIVE_INFINITY
  return {
    name,
    expected: halfWidthOf(expected) ?? never,
    simulated: at(rising(read.map(({ reading }) => halfWidthOf(reading) ?? never)), 0.5),
    error95: at(
      rising(
        read.map(({ reading, truthRpm }) =>
          reading.rpm === null ? never : Math.abs(reading.rpm - truthRpm),
        ),
      ),
      0.95,
    ),
    flag: expected.flag,
    sameFlag: read.filter(({ reading }) => reading.flag === expected.flag).length / hits,
  }
}

/** Prints the table, and answers the ratio of expected to simulated that is farthest from 1. */
export function planTable(hits: number, say: (line: string) => void): number {
  const line = (name: string, ...cells: string[]) =>
    say(name.padEnd(28) + cells.map(cell => cell.padStart(12)).join(''))
  line('set-up', 'expected', 'simulated', 'ratio', '95 % error', 'flag', 'same flag')
  let worst = 1
  for (const name of Object.keys(benchSetUps)) {
    const row = rowOf(name, hits)
    const ratio = row.expected / row.simulated
    if (Math.abs(Math.log(ratio)) > Math.abs(Math.log(worst))) worst = ratio
    line(
      name,
      row.expected.toFixed(1),
      row.simulated.toFixed(1),
      ratio.toFixed(3),
      row.error95.toFixed(1),
      row.flag,
      row.sameFlag.toFixed(2),
    )
  }
  return worst
}
