import type { PercentileDefinition } from '../../contract/rating-rules.ts'
import type { TableRow } from '../../contract/standings.ts'
import type { Session } from '../../contract/workspace.ts'
import { roundForShow } from '../../numerics/round-for-show.ts'
import { type Figures, halfWidthOf } from '../figure-text.ts'
import { flagWords } from '../flag-shape.ts'
import { nameOf, paddleDots } from '../paddle-dots.ts'
import { type PlacedFigure, percentileBars } from '../percentile-bars.ts'
import { percentileWords } from '../percentile-words.ts'
import type { Scene } from '../scene.ts'
import type { Block, Report } from './blocks.ts'
import type { ReportStyle } from './picture-size.ts'
import {
  budgetTable,
  type ClipCheck,
  cameraFacts,
  closing,
  hitReasons,
  hitsTable,
  type ReportedHit,
  timeCheck,
} from './sections.ts'

export type PaddleEvidence = {
  row: TableRow
  /** How many set-ups have a figure. */
  ranked: number
  hits: readonly ReportedHit[]
  sessions: readonly { session: Session; clips: readonly ClipCheck[] }[]
  placed: readonly PlacedFigure[]
  definition: PercentileDefinition
  /** The plot of a hit from the middle; null where its clip cannot be shown. */
  example: Scene | null
  version: string
  methodVersion: string
  style: ReportStyle
}

/** Everything that one paddle's figure rests on. */
export function paddleReport(evidence: PaddleEvidence): Report {
  const { row, hits, sessions, example, definition, placed, style } = evidence
  const { figures, pictures } = style
  const days = hits.map(hit => hit.row.day).toSorted()
  return {
    title: `Spin of ${nameOf(row)}`,
    subtitle: [headline(row, figures), daysWords(days)].filter(Boolean).join(' · '),
    day: days.at(-1) ?? '1970-01-01',
    blocks: [
      { kind: 'paragraph', text: inPlainWords(evidence) },
      { kind: 'facts', rows: factsOf(evidence) },
      { kind: 'picture', scene: paddleDots([row], ...pictures) },
      ...(row.percentile === null
        ? []
        : [
            {
              kind: 'picture' as const,
              scene: percentileBars(nameOf(row), placed, percentileWords[definition], ...pictures),
            },
          ]),
      { kind: 'heading', text: 'Hits' },
      hitsTable(hits, figures),
      ...hitReasons(hits),
      ...(example ? [{ kind: 'heading', text: 'One of the hits' } as const, picture(example)] : []),
      ...budgetTable(hits, figures),
      ...sessions.flatMap(({ session, clips }): Block[] => [
        { kind: 'heading', text: `Camera and time check, ${session.day}` },
        ...cameraFacts(session, figures),
        ...timeCheck(clips, figures),
      ]),
      ...closing(evidence.version, evidence.methodVersion),
    ],
  }
}

const picture = (scene: Scene): Block => ({ kind: 'picture', scene })

export const headline = (
  { meanRpm, band, hits }: Pick<TableRow, 'meanRpm' | 'band' | 'hits'>,
  { spin, unit }: Figures,
): string =>
  meanRpm === null
    ? 'no figure yet'
    : `${spin(meanRpm, band && halfWidthOf(band))} ${unit} (95 %, ${hits} ${hits === 1 ? 'hit' : 'hits'})`

export function daysWords(days: readonly string[]): string {
  const [first, last] = [days[0], days.at(-1)]
  if (first === undefined || last === undefined) return ''
  return first === last ? first : `${first} to ${last}`
}

/** For a reader without statistics. */
function inPlainWords({ row, ranked, style: { figures } }: PaddleEvidence): string {
  const { digits, rate, unit } = figures
  const { meanRpm, band, hits, rank } = row
  if (meanRpm === null || band === null)
    return `${nameOf(row)} has no figure yet: none of its hits may be used. The reasons stand below.`
  const turns = digits(meanRpm / 60, meanRpm < 600 ? 1 : 0)
  return [
    `After a shot with ${nameOf(row)} the ball turned about ${turns} times a second: ${wholeOf(meanRpm, halfWidthOf(band), figures)} turns a minute${hits > 1 ? `, the mean of ${hits} hits` : ', in a single hit'}.`,
    `No measurement is exact. All that is known of this one’s errors leaves the value between ${rate(band.lowRpm)} and ${rate(band.highRpm)} ${unit}; in 95 of 100 such statements the truth lies inside.`,
    ...(hits === 1
      ? ['One hit says little of the next one: more hits would show how much they differ.']
      : []),
    ...(rank !== null && ranked > 1
      ? [
          `Of the ${ranked} paddles measured here it stands at place ${rank}; a paddle whose band overlaps this one’s may spin as much.`,
        ]
      : []),
  ].join(' ')
}

function factsOf({ row, ranked, definition, style: { figures } }: PaddleEvidence): [string, string][] {
  const { digits, rate, spin, unit } = figures
  const { meanRpm, band, percentile, rank, tier, flag, limit, betweenHitSdRpm, hits, heldBack } = row
  const { ownUncertaintyRpm: own, sharedUncertaintyRpm: shared } = row
  return [
    ['mean spin', meanRpm === null ? 'none' : `${spin(meanRpm, band && halfWidthOf(band))} ${unit}`],
    ...(band
      ? [['95 % band', `${rate(band.lowRpm)} to ${rate(band.highRpm)} ${unit}`] satisfies [string, string]]
      : []),
    ['hits', `${hits} in the mean, ${heldBack} left out`],
    ['flag', limit === null ? flagWords[flag] : `${flagWords[flag]} (${limit} limit)`],
    ...present('from hit to hit', betweenHitSdRpm, sd => `${rate(sd)} ${unit} (standard deviation)`),
    ...present('uncertainty of its own', own, u => `${rate(u, 1)} ${unit}; more hits make it smaller`),
    ...present(
      'shared by all hits of the camera',
      shared,
      u => `${rate(u, 1)} ${unit}; hits do not make it smaller`,
    ),
    ...present('place', rank, place => `${place} of ${ranked}`),
    ...present('percentile', percentile, value => `${digits(value)} (${percentileWords[definition]})`),
    ...(tier === null ? [] : [['tier', tier] satisfies [string, string]]),
  ]
}

/** As many digits as the band allows: the sentence must not claim more than the figure. */
const wholeOf = (rpm: number, halfWidthRpm: number, { digits }: Figures): string =>
  digits(Math.round(roundForShow(rpm, halfWidthRpm).value))

const present = (name: string, value: number | null, words: (value: number) => string): [string, string][] =>
  value === null ? [] : [[name, words(value)]]
