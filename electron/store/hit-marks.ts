import type {
  BenchMark,
  Edit,
  HitMarks,
  PlacedOutline,
  PlacedSighting,
  ReadFrom,
} from '../../core/contract/bench.ts'
import type { Sense } from '../../core/contract/marks.ts'
import { inOrder } from '../../core/marking/apply-edit.ts'
import type { Database } from './database.ts'
import { found } from './missing.ts'

type MarksRow = {
  from_frame: number
  to_frame: number
  sense: Sense | null
  settled: string | null
  verdict: HitMarks['verdict']['state']
  verdict_reason: string
  read_from: ReadFrom
}
type OutlineRow = Omit<PlacedOutline, 'found'> & { found: number }
type SightingRow = {
  mark: string
  frame: number
  kind: PlacedSighting['kind']
  x_px: number
  y_px: number
  bearing_deg: number
  accepted: number
}

/** All that a person has put on one hit, as the rows hold it. */
export function readHitMarks(db: Database, hitId: string): HitMarks {
  const row = found(
    db.get<MarksRow>(
      'SELECT from_frame, to_frame, sense, settled, verdict, verdict_reason, read_from FROM hit WHERE id = $hitId',
      { hitId },
    ),
    'hit',
    hitId,
  )
  return inOrder({
    window: { fromFrame: row.from_frame, toFrame: row.to_frame },
    marks: db
      .all<BenchMark>('SELECT id, kind, symmetry_order AS symmetryOrder FROM mark WHERE hit_id = $hitId', {
        hitId,
      })
      .map(mark => ({ ...mark })),
    outlines: db
      .all<OutlineRow>(
        'SELECT frame, x_px AS xPx, y_px AS yPx, radius_px AS radiusPx, found FROM outline WHERE hit_id = $hitId',
        { hitId },
      )
      .map(({ found: isFound, ...outline }) => (isFound ? { ...outline, found: true } : { ...outline })),
    sightings: db.all<SightingRow>('SELECT * FROM sighting WHERE hit_id = $hitId', { hitId }).map(sightingOf),
    sense: row.sense,
    settled: row.settled === null ? null : JSON.parse(row.settled),
    verdict: { state: row.verdict, reason: row.verdict_reason },
    ...(row.read_from === 'surface' ? { readFrom: row.read_from } : {}),
  })
}

function sightingOf({ kind, frame, mark, ...seen }: SightingRow): PlacedSighting {
  const by = seen.accepted ? { accepted: true as const } : {}
  if (kind === 'point') return { kind, frame, mark, xPx: seen.x_px, yPx: seen.y_px, ...by }
  if (kind === 'direction') return { kind, frame, mark, bearingDeg: seen.bearing_deg, ...by }
  return { kind, frame, mark, ...by }
}

/** Writes the rows that an edit touches. Whether the edit makes sense was seen before (`applyEdit`). */
export function writeEdit(db: Database, hitId: string, edit: Edit): void {
  switch (edit.kind) {
    case 'set-window':
      db.run('UPDATE hit SET from_frame = $fromFrame, to_frame = $toFrame WHERE id = $hitId', {
        hitId,
        ...edit.window,
      })
      break
    case 'place-outline':
      db.run(
        `INSERT OR REPLACE INTO outline (hit_id, frame, x_px, y_px, radius_px, found)
         VALUES ($hitId, $frame, $xPx, $yPx, $radiusPx, $found)`,
        { hitId, ...edit.outline, found: edit.outline.found ? 1 : 0 },
      )
      break
    case 'remove-outline':
      db.run('DELETE FROM outline WHERE hit_id = $hitId AND frame = $frame', { hitId, frame: edit.frame })
      break
    case 'place-sighting':
      db.run(
        `INSERT OR REPLACE INTO sighting (hit_id, frame, mark, kind, x_px, y_px, bearing_deg, accepted)
         VALUES ($hitId, $frame, $mark, $kind, $xPx, $yPx, $bearingDeg, $accepted)`,
        {
          hitId,
          xPx: null,
          yPx: null,
          bearingDeg: null,
          ...edit.sighting,
          accepted: edit.sighting.accepted ? 1 : 0,
        },
      )
      break
    case 'remove-sighting':
      db.run('DELETE FROM sighting WHERE hit_id = $hitId AND frame = $frame AND mark = $mark', {
        hitId,
        frame: edit.frame,
        mark: edit.mark,
      })
      break
    case 'put-mark':
      // An upsert, not a replace: that would delete the row first and its sightings with it.
      db.run(
        `INSERT INTO mark (hit_id, id, kind, symmetry_order) VALUES ($hitId, $id, $kind, $symmetryOrder)
         ON CONFLICT DO UPDATE SET kind = excluded.kind, symmetry_order = excluded.symmetry_order`,
        { hitId, ...edit.mark },
      )
      break
    case 'remove-mark':
      db.run('DELETE FROM mark WHERE hit_id = $hitId AND id = $mark', { hitId, mark: edit.mark })
      break
    case 'set-sense':
      db.run('UPDATE hit SET sense = $sense WHERE id = $hitId', { hitId, sense: edit.sense })
      break
    case 'settle':
      db.run('UPDATE hit SET settled = $settled WHERE id = $hitId', {
        hitId,
        settled: edit.settled && JSON.stringify(edit.settled),
      })
      break
    case 'decide':
      db.run('UPDATE hit SET verdict = $state, verdict_reason = $reason WHERE id = $hitId', {
        hitId,
        ...edit.verdict,
      })
      break
    case 'read-from':
      db.run('UPDATE hit SET read_from = $source WHERE id = $hitId', { hitId, source: edit.source })
      break
    case 'together':
      for (const one of edit.edits) writeEdit(db, hitId, one)
      break
  }
}
