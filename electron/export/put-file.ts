import {
  closeSync,
  copyFileSync,
  existsSync,
  openSync,
  readFileSync,
  realpathSync,
  rmSync,
  statSync,
} from 'node:fs'
import { extname } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import { hashOf } from './hash-of.ts'
import { replaceFile } from './replace-file.ts'

export type Backup = { path: string; sha256: string }

/**
 * Puts bytes in a file's place in one step, where a link points; with `keep` a copy of what was there is
 * left beside it first. A step that fails leaves what was there, and no copy.
 */
export function putFile(path: string, bytes: Uint8Array, { keep = true } = {}): Backup | null {
  let backup: Backup | null = null
  try {
    const isThere = existsSync(path)
    // A rename would pass over the file's own rights, and put a file in a link's place.
    if (isThere) closeSync(openSync(path, 'r+'))
    const place = isThere ? realpathSync(path) : path
    if (keep && isThere && statSync(place).size > 0) backup = copyBeside(place)
    replaceFile(place, bytes)
    return backup
  } catch (cause) {
    if (backup) rmSync(backup.path, { force: true })
    throw writeProblem(path, cause)
  }
}

/** `ratings.before-20260531-140509.xlsx`, and a number where that is taken. */
function copyBeside(path: string): Backup {
  const ending = extname(path)
  const stem = path.slice(0, path.length - ending.length)
  const moment = new Date().toISOString().slice(0, 19).replace(/[-:]/g, '').replace('T', '-')
  let copy = `${stem}.before-${moment}${ending}`
  for (let n = 2; existsSync(copy); n++) copy = `${stem}.before-${moment}-${n}${ending}`
  try {
    copyFileSync(path, copy)
  } catch (thrown) {
    rmSync(copy, { force: true })
    throw thrown
  }
  return { path: copy, sha256: hashOf(readFileSync(copy)) }
}

function writeProblem(path: string, cause: unknown): unknown {
  const code = (cause as NodeJS.ErrnoException).code
  if (code === 'ENOSPC' || code === 'EDQUOT') return new WhorlError('disk-full', { path }, { cause })
  if (code === 'EBUSY') return new WhorlError('target-locked', { path }, { cause })
  // On Windows an open sheet cannot be replaced, and that is told as EPERM.
  if (code === 'EPERM' && statSync(path, { throwIfNoEntry: false }) && process.platform === 'win32')
    return new WhorlError('target-locked', { path }, { cause })
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS')
    return new WhorlError('target-read-only', { path }, { cause })
  return cause
}
