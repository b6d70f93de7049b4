import { randomUUID } from 'node:crypto'
import type { Session, SessionDetails } from '../../core/contract/workspace.ts'
import type { Database, SqlValues } from './database.ts'
import { found } from './missing.ts'
import type { Workspace } from './workspace.ts'

/** Columns of a session's details, by the name of the value that goes into each. */
const columns = {
  day: 'day',
  place: 'place',
  cameraName: 'camera_name',
  captureFps: 'capture_fps',
  relativeUncertainty: 'relative_uncertainty',
  exposureSeconds: 'exposure_seconds',
  readoutSeconds: 'readout_seconds',
  readoutUncertaintySeconds: 'readout_uncertainty_seconds',
  focalLengthPx: 'focal_length_px',
  takenFrom: 'camera_taken_from',
  ballName: 'ball_name',
  ballDiameterMetres: 'ball_diameter_metres',
  hitBy: 'hit_by',
  maxRpm: 'max_rpm',
  clickStandardUncertaintyPx: 'click_standard_uncertainty_px',
  notes: 'notes',
}
type DetailRow = Omit<SessionDetails, 'camera' | 'ball'> &
  Omit<SessionDetails['camera'], 'name' | 'takenFrom'> & {
    cameraName: string
    takenFrom: string | null
    ballName: string
    ballDiameterMetres: number
  }
type SessionRow = DetailRow & { id: string; clips: number; hits: number; accepted: number; heldBack: number }

const selected = Object.entries(columns)
  .map(([name, column]) => `session.${column} AS ${name}`)
  .join(', ')
const query = `
  WITH clip_count AS (SELECT session_id, count(*) AS clips FROM clip GROUP BY session_id),
  hit_count AS (
    SELECT clip.session_id, count(*) AS hits,
      sum(hit.verdict = 'accepted') AS accepted, sum(hit.verdict = 'held-back') AS heldBack
    FROM hit JOIN clip ON clip.id = hit.clip_id GROUP BY clip.session_id
  )
  SELECT session.id, ${selected}, ifnull(clips, 0) AS clips, ifnull(hits, 0) AS hits,
    ifnull(accepted, 0) AS accepted, ifnull(heldBack, 0) AS heldBack
  FROM session
  LEFT JOIN clip_count ON clip_count.session_id = session.id
  LEFT JOIN hit_count ON hit_count.session_id = session.id`

/** What was filmed when, with which camera and ball. */
export function sessionStore(
  db: Database,
  stamp: () => string,
): Pick<Workspace, 'sessions' | 'session' | 'createSession' | 'updateSession' | 'removeSession'> {
  const session = (id: string) =>
    sessionOf(found(db.get<SessionRow>(`${query} WHERE session.id = $id`, { id }), 'session', id))
  return {
    session,
    sessions: () =>
      db
        .all<SessionRow>(`${query} ORDER BY session.day DESC, session.added_at DESC, session.rowid DESC`)
        .map(sessionOf),
    createSession: details => {
      const id = randomUUID()
      db.run(
        `INSERT INTO session (id, added_at, ${Object.values(columns).join(', ')})
         VALUES ($id, $at, ${Object.keys(columns)
           .map(name => `$${name}`)
           .join(', ')})`,
        { id, at: stamp(), ...rowOf(details) },
      )
      return session(id)
    },
    updateSession: (id, details) => {
      db.transaction(() => {
        const before = session(id)
        const set = Object.entries(columns).map(([name, column]) => `${column} = $${name}`)
        db.run(`UPDATE session SET ${set.join(', ')} WHERE id = $id`, { id, ...rowOf(details) })
        if (figureFacts(before) !== figureFacts(details))
          db.run(
            `UPDATE hit SET revision = revision + 1
             WHERE clip_id IN (SELECT id FROM clip WHERE session_id = $id)`,
            { id },
          )
      })
      return session(id)
    },
    removeSession: id => {
      found(db.run('DELETE FROM session WHERE id = $id', { id }) || undefined, 'session', id)
    },
  }
}

/** What a reading depends on; the rest (day, place, names, notes) can change under it. */
const figureFacts = ({ camera, ball, maxRpm, clickStandardUncertaintyPx }: SessionDetails) =>
  JSON.stringify([
    { ...camera, name: '', takenFrom: null },
    ball.diameterMetres,
    maxRpm,
    clickStandardUncertaintyPx,
  ])

const rowOf = ({ camera, ball, ...rest }: SessionDetails): SqlValues => ({
  day: rest.day,
  place: rest.place,
  cameraName: camera.name,
  captureFps: camera.captureFps,
  relativeUncertainty: camera.relativeUncertainty,
  exposureSeconds: camera.exposureSeconds,
  readoutSeconds: camera.readoutSeconds,
  readoutUncertaintySeconds: camera.readoutUncertaintySeconds,
  focalLengthPx: camera.focalLengthPx,
  takenFrom: camera.takenFrom ? JSON.stringify(camera.takenFrom) : null,
  ballName: ball.name,
  ballDiameterMetres: ball.diameterMetres,
  hitBy: rest.hitBy,
  maxRpm: rest.maxRpm,
  clickStandardUncertaintyPx: rest.clickStandardUncertaintyPx,
  notes: rest.notes,
})

const sessionOf = (row: SessionRow): Session => ({
  id: row.id,
  day: row.day,
  place: row.place,
  camera: {
    name: row.cameraName,
    captureFps: row.captureFps,
    relativeUncertainty: row.relativeUncertainty,
    exposureSeconds: row.exposureSeconds,
    readoutSeconds: row.readoutSeconds,
    readoutUncertaintySeconds: row.readoutUncertaintySeconds,
    focalLengthPx: row.focalLengthPx,
    ...(row.takenFrom === null ? {} : { takenFrom: JSON.parse(row.takenFrom) }),
  },
  ball: { name: row.ballName, diameterMetres: row.ballDiameterMetres },
  hitBy: row.hitBy,
  maxRpm: row.maxRpm,
  clickStandardUncertaintyPx: row.clickStandardUncertaintyPx,
  notes: row.notes,
  clips: row.clips,
  hits: row.hits,
  accepted: row.accepted,
  heldBack: row.heldBack,
})
