import { closeSync, fstatSync, openSync, readSync, statSync } from 'node:fs'

/** What lies at a path, seen without SQLite: SQLite may touch what it opens. */
export type FileHeader =
  | { kind: 'nothing' }
  | { kind: 'empty' }
  | { kind: 'sqlite'; applicationId: number }
  | { kind: 'other' }
  | { kind: 'unreadable'; what: string }

/**
 * The first 100 bytes say all: magic text at 0, application id at 68 (sqlite.org/fileformat2.html, 1.3).
 * Never for a file that this process has open with SQLite: closing any handle on it drops SQLite's locks
 * (sqlite.org/howtocorrupt.html, 2.2).
 */
export function fileHeader(path: string): FileHeader {
  let file: number
  try {
    // Opening a pipe would wait for whoever writes into it.
    if (!statSync(path).isFile()) return { kind: 'other' }
    file = openSync(path, 'r')
  } catch (thrown) {
    const { code, message } = thrown as NodeJS.ErrnoException
    return code === 'ENOENT' ? { kind: 'nothing' } : { kind: 'unreadable', what: code ?? message }
  }
  try {
    if (fstatSync(file).size === 0) return { kind: 'empty' }
    const header = Buffer.alloc(100)
    readSync(file, header, 0, 100, 0)
    if (header.toString('latin1', 0, 16) !== 'SQLite format 3\0') return { kind: 'other' }
    return { kind: 'sqlite', applicationId: header.readUInt32BE(68) }
  } finally {
    closeSync(file)
  }
}
