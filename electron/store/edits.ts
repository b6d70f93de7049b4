import type { Edit } from '../../core/contract/bench.ts'
import { applyEdit } from '../../core/marking/apply-edit.ts'
import type { Database } from './database.ts'
import { readHitMarks, writeEdit } from './hit-marks.ts'
import { benchHit } from './hits.ts'
import { found } from './missing.ts'
import type { Workspace } from './workspace.ts'

type Step = { edit: string; inverse: string }

/**
 * A person's steps on a hit, with the way back. Steps are numbered from 1; `steps_taken` of the hit says
 * how many of them stand, the ones after it can be taken again.
 */
export function editStore(db: Database, stamp: () => string): Pick<Workspace, 'saveEdit' | 'undo' | 'redo'> {
  const stepsTaken = (hitId: string) =>
    found(
      db.get<{ taken: number }>('SELECT steps_taken AS taken FROM hit WHERE id = $hitId', { hitId }),
      'hit',
      hitId,
    ).taken

  const step = (hitId: string, number: number) =>
    db.get<Step>('SELECT edit, inverse FROM step WHERE hit_id = $hitId AND number = $number', {
      hitId,
      number,
    })

  const write = (hitId: string, edits: Edit[], taken: number) => {
    for (const edit of edits) writeEdit(db, hitId, edit)
    // A verdict is about the reading, not under it: deciding leaves the reading as fresh as it was.
    const touched = edits.some(edit => edit.kind !== 'decide') ? 1 : 0
    db.run('UPDATE hit SET steps_taken = $taken, revision = revision + $touched WHERE id = $hitId', {
      hitId,
      taken,
      touched,
    })
  }

  return {
    saveEdit: (hitId, edit) =>
      db.transaction(() => {
        const number = stepsTaken(hitId) + 1
        const { inverse } = applyEdit(readHitMarks(db, hitId), edit)
        db.run('DELETE FROM step WHERE hit_id = $hitId AND number >= $number', { hitId, number })
        db.run(
          `INSERT INTO step (hit_id, number, edit, inverse, taken_at)
           VALUES ($hitId, $number, $edit, $inverse, $at)`,
          { hitId, number, edit: JSON.stringify(edit), inverse: JSON.stringify(inverse), at: stamp() },
        )
        write(hitId, [edit], number)
        return benchHit(db, hitId)
      }),
    undo: hitId =>
      db.transaction(() => {
        const number = stepsTaken(hitId)
        const last = step(hitId, number)
        if (last) write(hitId, JSON.parse(last.inverse), number - 1)
        return benchHit(db, hitId)
      }),
    redo: hitId =>
      db.transaction(() => {
        const number = stepsTaken(hitId) + 1
        const next = step(hitId, number)
        if (next) write(hitId, [JSON.parse(next.edit)], number)
        return benchHit(db, hitId)
      }),
  }
}
