import type { CallContext, Service } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { PictureKind, PictureOrder, Subject } from '../../core/contract/publish.ts'
import type { PaddleTable, TableRow } from '../../core/contract/standings.ts'
import { bandByRate } from '../../core/picture/band-by-rate.ts'
import { difference } from '../../core/picture/difference.ts'
import { type Figures, figuresIn } from '../../core/picture/figure-text.ts'
import { meanWords, nameOf, paddleDots } from '../../core/picture/paddle-dots.ts'
import { type PlacedFigure, percentileBars } from '../../core/picture/percentile-bars.ts'
import { percentileWords } from '../../core/picture/percentile-words.ts'
import { ranking } from '../../core/picture/ranking.ts'
import type { Scene } from '../../core/picture/scene.ts'
import type { Parts } from '../service/parts.ts'
import { hitEvidence } from './hit-evidence.ts'
import { bearingScene, flightScene } from './hit-pictures.ts'
import { middleHit } from './middle-hit.ts'
import { ratePoints } from './rate-points.ts'
import { sessionFigures } from './session-figures.ts'
import { sessionScene } from './session-picture.ts'
import { turnedBackScene } from './turned-back-picture.ts'

/** The ratings as the page gets them: a picture shows the same figures. */
export type RatingCalls = Pick<
  Service,
  'ratings.table' | 'ratings.ranks' | 'ratings.compare' | 'ratings.paddle'
>
type Drawing = (
  parts: Parts,
  ratings: RatingCalls,
  order: PictureOrder,
  context: CallContext,
) => Promise<Scene>

/** Draws what was ordered. Throws `picture-of-what` where it was not said of what. */
export const drawPicture: Drawing = (parts, ratings, order, context) =>
  drawings[order.kind](parts, ratings, order, context)

const drawings: Record<PictureKind, Drawing> = {
  bearing: async (parts, _, { of, look, size }) =>
    bearingScene(parts.media, hitEvidence(parts, hitIdOf(parts, of, 'bearing')), look, size),
  flight: async (parts, _, { of, look, size }) =>
    flightScene(parts.media, hitEvidence(parts, hitIdOf(parts, of, 'flight')), look, size),
  'turned-back': async (parts, _, { of, look, size }) =>
    turnedBackScene(parts.media, hitEvidence(parts, hitIdOf(parts, of, 'turned-back')), look, size),
  hits: async (parts, _, { of, look, size }, context) =>
    sessionScene(parts, sessionIdOf(of), look, size, context),
  dots: async ({ workspace }, ratings, { of, look, size }, context) =>
    paddleDots(
      of.sessionId === undefined
        ? rowsIn(await ratings['ratings.table']({}, context), of)
        : sessionFigures(workspace.evidence({ sessionId: of.sessionId })),
      look,
      size,
    ),
  ranking: async (_, ratings, { of, look, size }, context) => {
    const rows = rowsIn(await ratings['ratings.table']({}, context), of)
    const ranks = new Map((await ratings['ratings.ranks']({}, context)).map(one => [one.setUpId, one]))
    return ranking(
      rows.map(row => ({ ...row, rankBand: ranks.get(row.setUpId) ?? null })),
      look,
      size,
    )
  },
  percentiles: async (_, ratings, { of, look, size }, context) => {
    const table = await ratings['ratings.table']({}, context)
    const [row] = named(table, of, 1, 'percentiles', 'one paddle')
    const { percentileDefinition } = table.rules
    return percentileBars(
      nameOf(row!),
      figuresOf(row!, table, figuresIn(look.figures)),
      percentileWords[percentileDefinition],
      look,
      size,
    )
  },
  difference: async (_, ratings, { of, look, size }, context) => {
    const table = await ratings['ratings.table']({}, context)
    const [a, b] = named(table, of, 2, 'difference', 'two paddles')
    const { pairs } = await ratings['ratings.compare']({ setUpIds: [a!.setUpId, b!.setUpId] }, context)
    const [pair] = pairs
    if (!pair)
      throw new WhorlError('picture-of-what', { kind: 'difference', what: 'two paddles that have a figure' })
    return difference(a!, b!, pair, look, size)
  },
  rate: async (_, ratings, { of, look, size }, context) => {
    const [row] = rowsIn(await ratings['ratings.table']({}, context), of).filter(one => one.meanRpm !== null)
    if (!row) throw new WhorlError('picture-of-what', { kind: 'rate', what: 'a paddle that has a figure' })
    const rpm = Math.round(row.meanRpm! / 10) * 10
    return bandByRate(ratePoints(rpm), rpm, look, size)
  },
}

function hitIdOf(parts: Parts, { hitId, setUpIds = [] }: Subject, kind: PictureKind): string {
  const [setUpId, another] = setUpIds
  const id = hitId ?? (setUpId !== undefined && another === undefined ? middleHit(parts, setUpId) : undefined)
  if (id === undefined) throw new WhorlError('picture-of-what', { kind, what: 'one hit' })
  if (id === null) throw new WhorlError('picture-of-what', { kind, what: 'a paddle that has a figure' })
  return id
}

function sessionIdOf({ sessionId }: Subject): string {
  if (sessionId === undefined) throw new WhorlError('picture-of-what', { kind: 'hits', what: 'one session' })
  return sessionId
}

/** The rows that were named, in the table's order; all that were hit where none was. */
function rowsIn({ rows }: PaddleTable, { setUpIds }: Subject): TableRow[] {
  return rows.filter(row =>
    setUpIds === undefined ? row.hits + row.heldBack > 0 : setUpIds.includes(row.setUpId),
  )
}

function named(
  table: PaddleTable,
  { setUpIds = [] }: Subject,
  count: number,
  kind: PictureKind,
  what: string,
) {
  const rows = setUpIds.flatMap(id => table.rows.filter(row => row.setUpId === id))
  if (rows.length !== count) throw new WhorlError('picture-of-what', { kind, what })
  return rows
}

/** Spin first, then what was measured elsewhere. */
export const figuresOf = (row: TableRow, { columns }: PaddleTable, figures: Figures): PlacedFigure[] => [
  { name: 'spin', said: `${meanWords(row, figures)} ${figures.unit}`, percentile: row.percentile },
  ...columns.flatMap(({ name, unit }, i): PlacedFigure[] => {
    const metric = row.metrics[i]
    if (!metric || metric.percentile === null) return []
    return [{ name, said: `${metric.value} ${unit}`.trim(), percentile: metric.percentile }]
  }),
]
