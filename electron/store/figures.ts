import type { Database } from './database.ts'
import { ratedEvidence } from './readings.ts'
import type { Workspace } from './workspace.ts'

/** A set-up's figure as it is kept (JSON), with whose it is. */
export type KeptFigure = { setUpId: string; paddleId: string; paddle: string; setUp: string; figure: string }

/**
 * Figures of set-ups, kept so that a table of thousands need not look at a million hits. Triggers of the
 * file drop one whenever its hits, readings, cameras or days change (migrations.ts), whichever window does it.
 */
export const figureStore = (
  db: Database,
): Pick<Workspace, 'figures' | 'unfilmed' | 'outdatedFigures' | 'keepFigures' | 'changeMark'> => ({
  figures: () =>
    db.all<KeptFigure>(
      `SELECT set_up.id AS setUpId, paddle.id AS paddleId, paddle.name AS paddle, set_up.name AS setUp, figure
       FROM set_up_figure JOIN set_up ON set_up.id = set_up_id JOIN paddle ON paddle.id = set_up.paddle_id`,
    ),
  unfilmed: () =>
    db.all<Omit<KeptFigure, 'figure'>>(
      `SELECT set_up.id AS setUpId, paddle.id AS paddleId, paddle.name AS paddle, set_up.name AS setUp
       FROM paddle JOIN set_up ON set_up.id =
         (SELECT id FROM set_up AS first WHERE first.paddle_id = paddle.id ORDER BY added_at, rowid LIMIT 1)
       WHERE NOT EXISTS (
         SELECT 1 FROM set_up AS any_set_up JOIN hit ON hit.set_up_id = any_set_up.id
         WHERE any_set_up.paddle_id = paddle.id)
       ORDER BY paddle.name`,
    ),
  outdatedFigures: madeBy =>
    db.all<{ setUpId: string; hits: number }>(
      `SELECT set_up.id AS setUpId, count(*) AS hits FROM set_up JOIN hit ON hit.set_up_id = set_up.id
       WHERE NOT EXISTS (SELECT 1 FROM set_up_figure WHERE set_up_id = set_up.id AND made_by = $madeBy)
       GROUP BY set_up.id`,
      { madeBy },
    ),
  keepFigures: (setUpIds, madeBy, make) =>
    db.transaction(() => {
      for (const setUpId of setUpIds) {
        const hits = ratedEvidence(db, setUpId)
        // Its last hit may have gone meanwhile; then there is nothing to keep.
        if (hits.length === 0) continue
        db.run(
          'INSERT OR REPLACE INTO set_up_figure (set_up_id, figure, made_by) VALUES ($setUpId, $figure, $madeBy)',
          { setUpId, figure: make(hits), madeBy },
        )
      }
    }),
  changeMark: () => {
    const here = db.get<{ changes: number }>('SELECT total_changes() AS changes')!.changes
    return `${here} ${db.get<{ data_version: number }>('PRAGMA data_version')!.data_version}`
  },
})
