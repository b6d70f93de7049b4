import { execFileSync } from 'node:child_process'
import { rawDatabase } from '../store/raw-database.ts'

const python = `
import json, sqlite3, sys
db = sqlite3.connect(sys.argv[1])
db.row_factory = sqlite3.Row
print(json.dumps([dict(row) for row in db.execute(sys.argv[2])]))`

/** Rows as a program of others reads them: sqlite3, else Python's own SQLite, else the driver without Whorl. */
export function readElsewhere(file: string, sql: string): Record<string, unknown>[] {
  for (const [program, words] of [
    ['sqlite3', ['-readonly', '-json', file, sql]],
    ['python3', ['-c', python, file, sql]],
  ] as const) {
    try {
      const said = execFileSync(program, words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] })
      return JSON.parse(said.trim() || '[]')
    } catch (thrown) {
      if ((thrown as NodeJS.ErrnoException).code !== 'ENOENT') throw thrown
    }
  }
  return rawDatabase(file).all(sql)
}
