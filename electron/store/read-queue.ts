import type { Database } from './database.ts'
import type { Queued, Workspace } from './workspace.ts'

type Watched = { sessionId: string; folder: string; known: string }

/** Clips that wait to be read, kept so that a kill costs the clip in hand alone, and the folders that feed them. */
export const readQueueStore = (
  db: Database,
): Pick<
  Workspace,
  'queued' | 'putInQueue' | 'putElsewhere' | 'setQueued' | 'takeFromQueue' | 'watchedFolders' | 'watchFolder'
> => ({
  queued: () =>
    db
      .all<Queued>(
        `SELECT clip.id AS clipId, clip.session_id AS sessionId, read_queue.state AS state, said
         FROM read_queue JOIN clip ON clip.id = read_queue.clip_id ORDER BY place`,
      )
      .map(row => ({ ...row })),
  putInQueue: clipIds =>
    db.transaction(() => {
      for (const clipId of clipIds) {
        db.run(`DELETE FROM read_queue WHERE clip_id = $clipId AND state IN ('done', 'failed')`, { clipId })
        db.run(`INSERT OR IGNORE INTO read_queue (clip_id, state, said) VALUES ($clipId, 'waiting', '')`, {
          clipId,
        })
      }
    }),
  putElsewhere: (clipId, place) => {
    db.run(`INSERT OR REPLACE INTO read_queue (clip_id, state, said) VALUES ($clipId, 'elsewhere', $place)`, {
      clipId,
      place,
    })
  },
  setQueued: (clipId, state, said) => {
    db.run('UPDATE read_queue SET state = $state, said = $said WHERE clip_id = $clipId', {
      clipId,
      state,
      said,
    })
  },
  takeFromQueue: (sessionId, where) => {
    db.run(
      `DELETE FROM read_queue WHERE state IN ('waiting', 'reading', 'elsewhere')
         AND (state = 'elsewhere') = $elsewhere
         AND clip_id IN (SELECT id FROM clip WHERE session_id = $sessionId)`,
      { sessionId, elsewhere: where === 'elsewhere' ? 1 : 0 },
    )
  },
  watchedFolders: () =>
    db
      .all<Watched>('SELECT session_id AS sessionId, folder, known FROM watched_folder ORDER BY session_id')
      .map(row => ({ ...row, known: JSON.parse(row.known) })),
  watchFolder: (sessionId, watched) => {
    db.run('DELETE FROM watched_folder WHERE session_id = $sessionId', { sessionId })
    if (watched)
      db.run('INSERT INTO watched_folder VALUES ($sessionId, $folder, $known)', {
        sessionId,
        folder: watched.folder,
        known: JSON.stringify(watched.known),
      })
  },
})
