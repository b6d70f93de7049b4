import type { Database } from './database.ts'

/**
 * Puts all rows of another workspace file of the same form in the place of this one's, in one transaction:
 * whoever has this file open sees the one or the other, and a kill leaves the one or the other.
 */
export function takeOver(db: Database, copy: string): void {
  db.run('ATTACH $copy AS other', { copy })
  db.exec('PRAGMA foreign_keys = OFF') // tables are filled one after the other
  try {
    db.transaction(() => {
      const tables = db.all<{ name: string }>(
        `SELECT name FROM main.sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'`,
      )
      for (const { name } of tables)
        db.exec(`DELETE FROM main."${name}"; INSERT INTO main."${name}" SELECT * FROM other."${name}"`)
    })
  } finally {
    db.exec('PRAGMA foreign_keys = ON')
    db.exec('DETACH other')
  }
}
