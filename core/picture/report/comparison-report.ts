import type { PaddleComparison, TableRow } from '../../contract/standings.ts'
import { difference } from '../difference.ts'
import { type Figures, halfWidthOf } from '../figure-text.ts'
import { flagWords } from '../flag-shape.ts'
import { meanWords, nameOf, paddleDots } from '../paddle-dots.ts'
import type { Block, Report } from './blocks.ts'
import { daysWords } from './paddle-report.ts'
import type { ReportStyle } from './picture-size.ts'
import { closing } from './sections.ts'

export type ComparisonEvidence = {
  comparison: PaddleComparison
  version: string
  methodVersion: string
  style: ReportStyle
}

/** Set-ups against each other, every pair of them. */
export function comparisonReport({ comparison, version, methodVersion, style }: ComparisonEvidence): Report {
  const { figures, pictures } = style
  const { rows, pairs } = comparison
  const rowOf = (id: string) => rows.find(row => row.setUpId === id)!
  const days = rows.flatMap(({ lastDay }) => (lastDay === null ? [] : [lastDay])).toSorted()
  return {
    title:
      rows.length === 2
        ? `${nameOf(rows[0]!)} against ${nameOf(rows[1]!)}`
        : `${rows.length} paddles compared`,
    subtitle: daysWords(days),
    day: days.at(-1) ?? '1970-01-01',
    blocks: [
      {
        kind: 'paragraph',
        text:
          pairs.map(pair => sentence(rowOf(pair.a), rowOf(pair.b), pair, figures)).join(' ') ||
          'No two of these have a figure yet.',
      },
      { kind: 'picture', scene: paddleDots(rows, ...pictures) },
      paddlesTable(rows, figures),
      ...(pairs.length > 0 ? [{ kind: 'heading', text: 'Differences' } as Block] : []),
      ...pairs.map(
        (pair): Block => ({
          kind: 'picture',
          scene: difference(rowOf(pair.a), rowOf(pair.b), pair, ...pictures),
        }),
      ),
      ...(pairs.length > 0 ? [pairsTable(comparison, rowOf, figures)] : []),
      ...(pairs.length > 1
        ? [
            {
              kind: 'paragraph',
              quiet: true,
              text: `p is corrected for ${pairs.length} pairs looked at (Holm).`,
            } as Block,
          ]
        : []),
      ...closing(version, methodVersion),
    ],
  }
}

type Pair = PaddleComparison['pairs'][number]

/** For a reader without statistics. */
function sentence(
  a: TableRow,
  b: TableRow,
  { differenceRpm, probabilityAOverB, adjustedP }: Pair,
  { digits, rate, unit }: Figures,
): string {
  const [more, less] = differenceRpm >= 0 ? [a, b] : [b, a]
  const apart = `${nameOf(more)} spun ${rate(Math.abs(differenceRpm))} ${unit} more than ${nameOf(less)} on average`
  if (probabilityAOverB === null || adjustedP === null)
    return `${apart}, but one hit each cannot say whether the paddles differ.`
  const chance = Math.max(probabilityAOverB, 1 - probabilityAOverB)
  return adjustedP < 0.05
    ? `${apart}; that it really spins more is ${chance > 0.995 ? 'almost certain' : `${digits(100 * chance)} % likely`}.`
    : `${apart}; by chance alone such a difference comes about often enough that the two may spin alike.`
}

const paddlesTable = (rows: readonly TableRow[], figures: Figures): Block => ({
  kind: 'table',
  says: 'The paddles',
  head: ['paddle', figures.unit, 'band (95 %)', 'hits', 'percentile', 'flag'],
  right: [1, 2, 3, 4],
  rows: rows.map(row => [
    nameOf(row),
    meanWords(row, figures),
    row.band ? `${figures.rate(row.band.lowRpm)}–${figures.rate(row.band.highRpm)}` : '–',
    String(row.hits),
    row.percentile === null ? '–' : figures.digits(row.percentile),
    flagWords[row.flag],
  ]),
})

const pairsTable = (
  { pairs }: PaddleComparison,
  rowOf: (id: string) => TableRow,
  { digits, rate, spin, unit }: Figures,
): Block => ({
  kind: 'table',
  says: 'The differences',
  head: ['first', 'second', `difference, ${unit}`, 'band (95 %)', 'first spins more', 'p'],
  right: [2, 3, 4, 5],
  rows: pairs.map(({ a, b, differenceRpm, band, probabilityAOverB, adjustedP }) => [
    nameOf(rowOf(a)),
    nameOf(rowOf(b)),
    spin(differenceRpm, band && halfWidthOf(band)),
    band ? `${rate(band.lowRpm)} to ${rate(band.highRpm)}` : '–',
    probabilityAOverB === null ? '–' : `${digits(100 * probabilityAOverB)} %`,
    adjustedP === null ? '–' : adjustedP < 0.001 ? `below ${digits(0.001, 3)}` : digits(adjustedP, 3),
  ]),
})
