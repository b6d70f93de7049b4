import type { Database } from './database.ts'

/** The form of a file: how many migrations it has seen. */
export const formOf = (db: Database): number =>
  db.get<{ user_version: number }>('PRAGMA user_version')!.user_version

/** Brings a file up to the last form, one transaction a step; a step that fails leaves the form before it. */
export function migrate(db: Database, migrations: readonly string[]): void {
  for (let form = formOf(db); form < migrations.length; form++) {
    db.transaction(() => {
      // Another window may have taken this step between the look and the lock.
      if (formOf(db) !== form) return
      db.exec(migrations[form]!)
      db.exec(`PRAGMA user_version = ${form + 1}`)
    })
  }
}
