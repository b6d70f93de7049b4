import { randomUUID } from 'node:crypto'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Database } from './database.ts'
import { found } from './missing.ts'
import type { StoredStudy, Workspace } from './workspace.ts'

type StudyRow = { id: string; sessionId: string; person: string; tasks: string }
const query = 'SELECT id, session_id AS sessionId, person, tasks FROM study'

/** What people marked again. A study keeps its own copy of what was shown: its hits may change or go. */
export function studyStore(
  db: Database,
  stamp: () => string,
): Pick<Workspace, 'studies' | 'study' | 'createStudy' | 'saveRemark' | 'takeBackRemark' | 'removeStudy'> {
  const seenIn = (studyId: string) =>
    db
      .all<{ seen: string }>('SELECT seen FROM study_remark WHERE study_id = $studyId ORDER BY place', {
        studyId,
      })
      .map(({ seen }) => JSON.parse(seen) as StoredStudy['seen'][number])
  const studyOf = (row: StudyRow): StoredStudy => ({
    id: row.id,
    sessionId: row.sessionId,
    person: row.person,
    tasks: JSON.parse(row.tasks),
    seen: seenIn(row.id),
  })
  const study = (studyId: string) =>
    studyOf(found(db.get<StudyRow>(`${query} WHERE id = $studyId`, { studyId }), 'marking study', studyId))
  return {
    study,
    studies: sessionId =>
      db
        .all<StudyRow>(`${query} WHERE session_id = $sessionId ORDER BY added_at, rowid`, { sessionId })
        .map(studyOf),
    createStudy: ({ sessionId, person, tasks }) => {
      const id = randomUUID()
      db.run('INSERT INTO study VALUES ($id, $sessionId, $person, $tasks, $at)', {
        id,
        sessionId,
        person,
        tasks: JSON.stringify(tasks),
        at: stamp(),
      })
      return study(id)
    },
    saveRemark: (studyId, place, seen) =>
      db.transaction(() => {
        const { tasks, seen: before } = study(studyId)
        if (place !== before.length || place >= tasks.length)
          throw new WhorlError('edit-refused', {
            what: `Mark ${place + 1} of this study came; ${before.length} of ${tasks.length} are done.`,
            hint: 'Another window may be on the same study. Open it again.',
          })
        db.run('INSERT INTO study_remark VALUES ($studyId, $place, $seen, $at)', {
          studyId,
          place,
          seen: JSON.stringify(seen),
          at: stamp(),
        })
        return study(studyId)
      }),
    takeBackRemark: studyId => {
      db.run(
        `DELETE FROM study_remark WHERE study_id = $studyId
           AND place = (SELECT max(place) FROM study_remark WHERE study_id = $studyId)`,
        { studyId },
      )
      return study(studyId)
    },
    removeStudy: studyId => {
      found(
        db.run('DELETE FROM study WHERE id = $studyId', { studyId }) || undefined,
        'marking study',
        studyId,
      )
    },
  }
}
