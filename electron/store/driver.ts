import { createRequire } from 'node:module'

/** The part of `node:sqlite` that Whorl uses; both drivers have it. */
export type Connection = {
  exec(sql: string): void
  prepare(sql: string): Statement
  close(): void
}
export type Statement = {
  run(parameters: object): { changes: number | bigint }
  get(parameters: object): unknown
  all(parameters: object): unknown[]
}
type SqliteModule = { DatabaseSync: new (path: string, options: { readOnly: boolean }) => Connection }

/** Opens a SQLite file by its absolute path (a relative one could be taken for a URI). */
export const connect = (absolutePath: string, readOnly: boolean): Connection =>
  new (sqlite().DatabaseSync)(absolutePath, { readOnly })

let loaded: SqliteModule | undefined

/**
 * What the runtime brings along, else the same interface from a package. The package's ways to know of:
 * statements cannot be finalized, so a closed file stays open until they are collected; numbers within
 * 2e-16 of a whole one are stored as that; text is cut off at a NUL.
 */
function sqlite(): SqliteModule {
  loaded ??= builtIn() ?? (createRequire(import.meta.url)('@photostructure/sqlite') as SqliteModule)
  return loaded
}

/** `node:sqlite` (Node 22.13 and later, Electron 45), without its notice that the interface is young. */
function builtIn(): SqliteModule | undefined {
  const emitWarning = process.emitWarning
  process.emitWarning = () => {}
  try {
    return process.getBuiltinModule?.('node:sqlite') as SqliteModule | undefined
  } finally {
    process.emitWarning = emitWarning
  }
}

export type Trouble = 'locked' | 'read-only' | 'full' | 'not-a-database' | 'damaged'

/** By SQLite's primary result code, and one of its extended ones (sqlite.org/rescode.html). */
const troubles = new Map<number, Trouble>([
  [3, 'read-only'], // SQLITE_PERM
  [5, 'locked'], // SQLITE_BUSY
  [6, 'locked'], // SQLITE_LOCKED
  [8, 'read-only'], // SQLITE_READONLY
  [11, 'damaged'], // SQLITE_CORRUPT
  [13, 'full'], // SQLITE_FULL
  [14, 'read-only'], // SQLITE_CANTOPEN
  [26, 'not-a-database'], // SQLITE_NOTADB
  [4874, 'full'], // SQLITE_IOERR_SHMSIZE
])

/** SQLite's own words for the codes (sqlite3_errstr): the package gives no code for what it meets between rows. */
const codeOfWords = new Map([
  ['database is locked', 5],
  ['database disk image is malformed', 11],
  ['database or disk is full', 13],
  ['file is not a database', 26],
])

/** What a thrown value says of the file, or null when it is not about the file. */
export function troubleOf(thrown: unknown): Trouble | null {
  if (!(thrown instanceof Error)) return null
  const code = (thrown as { errcode?: unknown }).errcode ?? codeOfWords.get(thrown.message)
  if (typeof code !== 'number') return null
  return troubles.get(code) ?? troubles.get(code & 0xff) ?? null
}

/** True when a unique name or key was there already (SQLITE_CONSTRAINT_UNIQUE). */
export const isTaken = (thrown: unknown) => (thrown as { errcode?: unknown } | null)?.errcode === 2067
