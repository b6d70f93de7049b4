import type { Provenance } from '../../core/contract/bench.ts'
import type { HitPage } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { HitRow, ListedHit } from '../../core/contract/workspace.ts'
import type { Database, SqlValues } from './database.ts'
import { found } from './missing.ts'
import type { HitFilter } from './workspace.ts'

type Row = {
  hitId: string
  clipId: string
  sessionId: string
  clipName: string
  day: string
  setUpId: string | null
  paddle: string | null
  setUp: string | null
  fromFrame: number
  toFrame: number
  verdict: HitRow['verdict']['state']
  verdictReason: string
  reading: string | null
  methodVersion: string | null
  stale: number | null
  notes: string
  readFrom: 'marks' | 'surface'
  touched: number
}

const columnsWith = (reading: 'reading' | 'listed') => `
    hit.id AS hitId, clip.id AS clipId, session.id AS sessionId, clip.name AS clipName, session.day AS day,
    set_up.id AS setUpId, paddle.name AS paddle, set_up.name AS setUp,
    hit.from_frame AS fromFrame, hit.to_frame AS toFrame,
    hit.verdict AS verdict, hit.verdict_reason AS verdictReason,
    reading.${reading} AS reading, reading.method_version AS methodVersion,
    reading.revision IS NOT hit.revision AS stale, hit.notes AS notes, hit.read_from AS readFrom,
    CASE hit.read_from
      WHEN 'surface' THEN EXISTS (SELECT 1 FROM outline WHERE hit_id = hit.id AND found = 0)
      ELSE EXISTS (SELECT 1 FROM sighting WHERE hit_id = hit.id AND accepted = 1)
    END AS touched`

/** Everything of a hit's row, in one query. */
export const hitRowQuery = {
  columns: columnsWith('reading'),
  tables: `
    hit JOIN clip ON clip.id = hit.clip_id JOIN session ON session.id = clip.session_id
    LEFT JOIN set_up ON set_up.id = hit.set_up_id LEFT JOIN paddle ON paddle.id = set_up.paddle_id
    LEFT JOIN reading ON reading.hit_id = hit.id`,
  order: 'ORDER BY session.day DESC, session.id, clip.name, clip.id, hit.from_frame, hit.added_at, hit.id',
}

export function filtered({ sessionId, clipId, setUpId }: HitFilter): { where: string; values: SqlValues } {
  const values: SqlValues = {}
  const conditions: string[] = []
  if (sessionId !== undefined) {
    conditions.push('clip.session_id = $sessionId')
    values.sessionId = sessionId
  }
  if (clipId !== undefined) {
    conditions.push('hit.clip_id = $clipId')
    values.clipId = clipId
  }
  if (setUpId !== undefined) {
    conditions.push('hit.set_up_id = $setUpId')
    values.setUpId = setUpId
  }
  return { where: conditions.length > 0 ? `WHERE ${conditions.join(' AND ')}` : '', values }
}

const listedColumns = columnsWith('listed')

/** Their readings are what lists show of them, which lies in an index of its own: no reading is opened. */
export function hitRows(db: Database, filter: HitFilter): ListedHit[] {
  const { where, values } = filtered(filter)
  const { tables, order } = hitRowQuery
  return db.all<Row>(`SELECT ${listedColumns} FROM ${tables} ${where} ${order}`, values).map(hitRowOf)
}

/** Whole sessions in the order of `hitRows`, so that a page need not sort what lies before it. */
export function hitPage(db: Database, after: string | null, least: number): HitPage {
  const sessions = db.all<{ id: string }>('SELECT id FROM session ORDER BY day DESC, id')
  const last = sessions.findIndex(({ id }) => id === after)
  if (after !== null && last < 0) throw new WhorlError('not-in-workspace', { what: 'session', id: after })
  const pages: ListedHit[][] = []
  let count = 0
  for (const [place, { id }] of sessions.entries()) {
    if (place <= last) continue
    pages.push(hitRows(db, { sessionId: id }))
    count += pages.at(-1)!.length
    if (count >= least && place + 1 < sessions.length) return { hits: pages.flat(), next: id }
  }
  return { hits: pages.flat(), next: null }
}

export function hitRow(db: Database, hitId: string): HitRow {
  const { columns, tables } = hitRowQuery
  const row = db.get<Row>(`SELECT ${columns} FROM ${tables} WHERE hit.id = $hitId`, { hitId })
  return hitRowOf(found(row, 'hit', hitId))
}

export const hitRowOf = (row: Row): HitRow => ({
  hitId: row.hitId,
  clipId: row.clipId,
  sessionId: row.sessionId,
  clipName: row.clipName,
  day: row.day,
  setUpId: row.setUpId,
  paddle: row.paddle,
  setUp: row.setUp,
  window: { fromFrame: row.fromFrame, toFrame: row.toFrame },
  verdict: { state: row.verdict, reason: row.verdictReason },
  reading: row.reading === null ? null : JSON.parse(row.reading),
  methodVersion: row.methodVersion,
  stale: row.reading !== null && row.stale === 1,
  notes: row.notes,
  provenance: row.reading === null ? null : provenanceOf(row),
})

/** A proposal counts as accepted once a person has put an outline right, or agreed to the figure. */
const provenanceOf = ({ readFrom, touched, verdict }: Row): Provenance =>
  readFrom === 'marks'
    ? touched
      ? 'accepted'
      : 'clicked'
    : touched || verdict === 'accepted'
      ? 'accepted'
      : 'untouched'

export type HitRowColumns = Row
