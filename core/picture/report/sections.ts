import type { HitRow, Session } from '../../contract/workspace.ts'
import { median } from '../../numerics/median.ts'
import { textOfSeconds } from '../../units/duration.ts'
import { type Figures, halfWidthOf } from '../figure-text.ts'
import { flagWords } from '../flag-shape.ts'
import type { Block } from './blocks.ts'

/** A hit as reports list it; `leftOut` says why it is not in the mean. */
export type ReportedHit = { row: HitRow; leftOut: string | null }
/** A clip's look at its own times. */
export type ClipCheck = { name: string; captureFps: number | null; says: string }

/** One line a hit: what was read, what counting alone would have said, and what became of it. */
export function hitsTable(hits: readonly ReportedHit[], { spin, rate, unit }: Figures): Block {
  const range = ({ lowRpm, highRpm }: { lowRpm: number; highRpm: number }) =>
    `${rate(lowRpm)}–${rate(highRpm)}`
  return {
    kind: 'table',
    says: 'Hits, one a line',
    head: ['clip', 'frames', 'day', unit, 'band (95 %)', 'counting alone', 'flag', 'used'],
    right: [3, 4, 5],
    rows: hits.map(({ row: { clipName, window, day, reading }, leftOut }) => [
      clipName,
      `${window.fromFrame}–${window.toFrame}`,
      day,
      reading?.rpm == null ? '–' : spin(reading.rpm, reading.band && halfWidthOf(reading.band)),
      reading?.band ? range(reading.band) : '–',
      reading?.counted ? range(reading.counted) : '–',
      reading ? flagWords[reading.flag] : '–',
      leftOut === null ? 'yes' : 'no',
    ]),
  }
}

/** What is to be said about single hits: why one is flagged, why one is left out. */
export function hitReasons(hits: readonly ReportedHit[]): Block[] {
  const items = hits.flatMap(({ row, leftOut }) => {
    const said = [...(row.reading?.reasons ?? []), ...(leftOut === null ? [] : [`Left out: ${leftOut}`])]
    const ended = said.map(words => (/[.!?]$/.test(words) ? words : `${words}.`))
    return ended.length > 0 ? [`${row.clipName}, frame ${row.window.fromFrame}: ${ended.join(' ')}`] : []
  })
  return items.length > 0
    ? [
        { kind: 'heading', text: 'Flags and reasons' },
        { kind: 'list', items },
      ]
    : []
}

/** What makes a hit's band: the middle value of each source over the hits that have it. */
export function budgetTable(hits: readonly ReportedHit[], figures: Figures): Block[] {
  const lines = hits.filter(({ leftOut }) => leftOut === null).flatMap(({ row }) => row.reading?.budget ?? [])
  const sources = [...new Set(lines.map(line => line.source))]
  if (sources.length === 0) return []
  const rows = sources.map(source => {
    const same = lines.filter(line => line.source === source)
    return { line: same[0]!, rpm: median(same.map(line => line.standardUncertaintyRpm)) }
  })
  return [
    { kind: 'heading', text: 'What makes the band of a hit' },
    {
      kind: 'table',
      says: 'Contributions to the band of a hit',
      head: ['source', `standard uncertainty, ${figures.unit}`, 'kind', 'shared by all hits of a camera'],
      right: [1],
      rows: rows
        .toSorted((a, b) => b.rpm - a.rpm)
        .map(({ line, rpm }) => [
          line.source,
          figures.rate(rpm, 1),
          line.kind,
          line.sharedByHits ? 'yes' : 'no',
        ]),
    },
    {
      kind: 'paragraph',
      quiet: true,
      text: 'The middle value over the hits. They add up as the root of their squares (JCGM 100:2008, 5.1.2); what is shared never averages away over hits.',
    },
  ]
}

const known = (value: number | null, words: (value: number) => string) =>
  value === null ? 'not known' : words(value)

export function cameraFacts({ day, place, hitBy, ball, camera }: Session, { digits }: Figures): Block[] {
  return [
    {
      kind: 'facts',
      rows: [
        ['day and place', [day, place].filter(Boolean).join(', ')],
        ['hit by', hitBy || 'not said'],
        ['ball', `${ball.name}, ${digits(ball.diameterMetres * 1000, 1)} mm`],
        ['camera', camera.name || 'not named'],
        [
          'capture rate',
          known(camera.captureFps, fps => `${digits(fps, Number.isInteger(fps) ? 0 : 2)} fps`),
        ],
        ['exposure', known(camera.exposureSeconds, textOfSeconds)],
        [
          'readout of the sensor',
          known(camera.readoutSeconds, seconds =>
            seconds === 0 ? 'none: all rows at once' : `${digits(seconds * 1000, 2)} ms`,
          ),
        ],
        ['focal length', known(camera.focalLengthPx, px => `${digits(px)} px`)],
      ],
    },
  ]
}

export const timeCheck = (clips: readonly ClipCheck[], { digits }: Figures): Block[] =>
  clips.length === 0
    ? []
    : [
        {
          kind: 'table',
          says: 'The time stamps of each clip',
          head: ['clip', 'capture rate, fps', 'time stamps'],
          right: [1],
          rows: clips.map(({ name, captureFps, says }) => [
            name,
            captureFps === null ? '–' : digits(captureFps, Number.isInteger(captureFps) ? 0 : 2),
            says,
          ]),
        },
      ]

/** How it was measured, what it is not, and by which version: the end of every report. */
export const closing = (version: string, methodVersion: string): Block[] => [
  { kind: 'heading', text: 'How it was measured' },
  {
    kind: 'paragraph',
    text: 'Each clip was taken apart into its frames with their real times. In every frame the ball’s outline and the place of a mark on it were put down; a rotation was fitted through all of them at once. The band comes from a budget of everything that is known to disturb the figure and holds the true value with 95 % probability. A reading near what the camera can tell is flagged; one that fits another rate as well is held back until a person decides and says why.',
  },
  { kind: 'heading', text: 'Cautions' },
  {
    kind: 'list',
    items: [
      'This is not a certification. What is legal for play is decided by the governing body and its laboratory.',
      'The figures hold for these hits, this ball, this camera and this day; another set-up may give others.',
      'A difference that is smaller than the bands is not shown by this test.',
      'Who repeats it: wear eye protection, keep everybody out of the line of the ball, and follow the local rules first.',
    ],
  },
  { kind: 'paragraph', quiet: true, text: `Whorl ${version}, method ${methodVersion}.` },
]
