import type { Database } from './database.ts'
import type { Workspace } from './workspace.ts'

const remembered = 8

/** Where the person exported to, latest first. */
export const targetStore = (
  db: Database,
  stamp: () => string,
): Pick<Workspace, 'recentTargets' | 'rememberTarget'> => ({
  recentTargets: () =>
    db
      .all<{ path: string }>('SELECT path FROM recent_target ORDER BY used_at DESC, path')
      .map(row => row.path),
  rememberTarget: path =>
    db.transaction(() => {
      db.run('INSERT OR REPLACE INTO recent_target (path, used_at) VALUES ($path, $at)', {
        path,
        at: stamp(),
      })
      db.run(
        `DELETE FROM recent_target WHERE path NOT IN
           (SELECT path FROM recent_target ORDER BY used_at DESC, path LIMIT ${remembered})`,
      )
    }),
})
