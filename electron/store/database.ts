import { resolve } from 'node:path'
import { type Connection, connect, type Statement, type Trouble, troubleOf } from './driver.ts'

export type SqlValue = string | number | null | Uint8Array
export type SqlValues = Record<string, SqlValue>

/** How long a write waits for another program to finish its own. */
const patienceMs = 1500

type Prepared = { statement: Statement; names: Set<string> }

/**
 * One open SQLite file. Statements take named parameters ($name), and every name must be given: the
 * drivers would bind a forgotten one as NULL without a word. Trouble with the file becomes the error that
 * the owner of the file names with `onTrouble`.
 */
export class Database {
  readonly #connection: Connection
  readonly #prepared = new Map<string, Prepared>()
  readonly #onTrouble: (trouble: Trouble, cause: unknown) => Error
  #busy = false
  #open = true

  constructor(
    path: string,
    options: { readOnly: boolean; onTrouble: (trouble: Trouble, cause: unknown) => Error },
  ) {
    this.#onTrouble = options.onTrouble
    this.#connection = this.#attempt(() => connect(resolve(path), options.readOnly))
    this.exec(`PRAGMA busy_timeout = ${patienceMs}`)
  }

  exec(sql: string): void {
    this.#attempt(() => this.#connection.exec(sql))
  }

  run(sql: string, values: SqlValues = {}): number {
    return this.#attempt(() => Number(this.#ready(sql, values).run(values).changes))
  }

  get<R>(sql: string, values: SqlValues = {}): R | undefined {
    return this.#attempt(() => this.#ready(sql, values).get(values) as R | undefined)
  }

  all<R>(sql: string, values: SqlValues = {}): R[] {
    return this.#attempt(() => this.#ready(sql, values).all(values) as R[])
  }

  /** All of the work or nothing of it. The write lock is taken first, so that no read in it grows old. */
  transaction<T>(work: () => T): T {
    if (this.#busy) throw new Error('A transaction was begun inside another one')
    this.exec('BEGIN IMMEDIATE')
    this.#busy = true
    try {
      const result = work()
      this.exec('COMMIT')
      return result
    } catch (thrown) {
      this.#rollBack()
      throw thrown
    } finally {
      this.#busy = false
    }
  }

  close(): void {
    if (!this.#open) return
    this.#open = false
    this.#prepared.clear()
    this.#connection.close()
  }

  /**
   * Leaves the write-ahead log, so that the closed file is one whole file that can be copied. While
   * another window has it open the log stays, and the last one to close takes it away.
   */
  leaveLog(): void {
    try {
      this.#connection.exec('PRAGMA busy_timeout = 0; PRAGMA journal_mode = DELETE')
    } catch {}
  }

  /** After some errors (a full disk) SQLite has rolled back by itself and says that nothing is open. */
  #rollBack(): void {
    try {
      this.#connection.exec('ROLLBACK')
    } catch {}
  }

  #ready(sql: string, values: SqlValues): Statement {
    let prepared = this.#prepared.get(sql)
    if (!prepared) {
      const names = new Set([...sql.matchAll(/\$(\w+)/g)].map(match => match[1]!))
      prepared = { statement: this.#connection.prepare(sql), names }
      this.#prepared.set(sql, prepared)
    }
    checkValues(sql, prepared.names, values)
    return prepared.statement
  }

  #attempt<T>(work: () => T): T {
    try {
      return work()
    } catch (thrown) {
      const trouble = troubleOf(thrown)
      throw trouble === null ? thrown : this.#onTrouble(trouble, thrown)
    }
  }
}

function checkValues(sql: string, names: Set<string>, values: SqlValues): void {
  for (const name of names) if (!Object.hasOwn(values, name)) throw new TypeError(`No $${name} for: ${sql}`)
  for (const [name, value] of Object.entries(values)) {
    if (!names.has(name)) throw new TypeError(`A $${name} too many for: ${sql}`)
    const fits =
      value === null ||
      // One of the drivers cuts text off at a NUL when it reads it back.
      (typeof value === 'string' && !value.includes('\0')) ||
      (typeof value === 'number' && Number.isFinite(value)) ||
      // One of the drivers binds no bytes as NULL.
      (value instanceof Uint8Array && value.length > 0)
    if (!fits) throw new TypeError(`$${name} cannot be stored (${JSON.stringify(value)}) by: ${sql}`)
  }
}
