import { randomUUID } from 'node:crypto'
import type { FrameWindow } from '../../core/contract/bench.ts'
import type { BenchHit } from '../../core/contract/workspace.ts'
import { newHitMarks } from '../../core/marking/new-hit-marks.ts'
import type { Database } from './database.ts'
import { readHitMarks, writeEdit } from './hit-marks.ts'
import { hitPage, hitRow, hitRows } from './hit-rows.ts'
import { found } from './missing.ts'
import { surfaceFacts } from './surface-facts.ts'
import { setUpOfClip } from './test-days.ts'
import type { Workspace } from './workspace.ts'

/** A hit as the bench needs it. */
export function benchHit(db: Database, hitId: string): BenchHit {
  const steps = found(
    db.get<{ taken: number; last: number }>(
      `SELECT steps_taken AS taken,
         (SELECT ifnull(max(number), 0) FROM step WHERE hit_id = hit.id) AS last
       FROM hit WHERE id = $hitId`,
      { hitId },
    ),
    'hit',
    hitId,
  )
  return {
    row: hitRow(db, hitId),
    marks: readHitMarks(db, hitId),
    canUndo: steps.taken > 0,
    canRedo: steps.taken < steps.last,
    surface: surfaceFacts(db, hitId),
    used: usedIn(db, hitId),
  }
}

function usedIn(db: Database, hitId: string): BenchHit['used'] {
  const kept = db.get<{ used: string | null }>('SELECT used FROM reading WHERE hit_id = $hitId', { hitId })
  return kept?.used ? JSON.parse(kept.used) : null
}

/** A hit without any work on it, by the paddle of its clip's turn if it has one, in the caller's transaction; answers its id. */
export function insertHit(db: Database, clipId: string, window: FrameWindow, at: string): string {
  found(db.get('SELECT 1 FROM clip WHERE id = $clipId', { clipId }), 'clip', clipId)
  const hitId = randomUUID()
  const { marks, verdict } = newHitMarks(window)
  db.run(
    `INSERT INTO hit (id, clip_id, set_up_id, from_frame, to_frame, verdict, verdict_reason, notes,
       revision, steps_taken, added_at)
     VALUES ($hitId, $clipId, $setUpId, $fromFrame, $toFrame, $verdict, $reason, '', 0, 0, $at)`,
    {
      hitId,
      clipId,
      setUpId: setUpOfClip(db, clipId),
      ...window,
      verdict: verdict.state,
      reason: verdict.reason,
      at,
    },
  )
  for (const mark of marks) writeEdit(db, hitId, { kind: 'put-mark', mark })
  return hitId
}

/** The hits themselves; what a person does on one is in edits.ts. */
export function hitStore(
  db: Database,
  stamp: () => string,
): Pick<Workspace, 'hits' | 'hitPage' | 'createHit' | 'hit' | 'assignHit' | 'noteHit' | 'removeHit'> {
  const set = (hitId: string, column: 'set_up_id' | 'notes', value: string | null) => {
    found(
      db.run(`UPDATE hit SET ${column} = $value WHERE id = $hitId`, { hitId, value }) || undefined,
      'hit',
      hitId,
    )
    return hitRow(db, hitId)
  }
  return {
    hits: filter => hitRows(db, filter),
    hitPage: (after, least) => hitPage(db, after, least),
    hit: hitId => benchHit(db, hitId),
    createHit: (clipId, window) => db.transaction(() => benchHit(db, insertHit(db, clipId, window, stamp()))),
    assignHit: (hitId, setUpId) => {
      if (setUpId !== null)
        found(db.get('SELECT 1 FROM set_up WHERE id = $setUpId', { setUpId }), 'set-up', setUpId)
      return set(hitId, 'set_up_id', setUpId)
    },
    noteHit: (hitId, notes) => set(hitId, 'notes', notes),
    removeHit: hitId => {
      found(db.run('DELETE FROM hit WHERE id = $hitId', { hitId }) || undefined, 'hit', hitId)
    },
  }
}
