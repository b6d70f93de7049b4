import { onTestFinished } from 'vitest'
import { connect } from '../../../electron/store/driver.ts'

/** A SQLite file as another program would have it open: no guards, no forms, no patience. */
export function rawDatabase(file: string) {
  const connection = connect(file, false)
  let open = true
  const raw = {
    run(sql: string) {
      connection.exec(sql)
      return raw
    },
    all: (sql: string) =>
      connection
        .prepare(sql)
        .all({})
        .map(row => ({ ...(row as Record<string, unknown>) })),
    close() {
      if (open) connection.close()
      open = false
    },
  }
  onTestFinished(() => raw.close())
  return raw
}
