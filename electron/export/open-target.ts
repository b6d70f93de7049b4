import { realpathSync, statSync } from 'node:fs'
import { dirname, extname, resolve } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import { fileHeader } from '../store/file-header.ts'
import { applicationId } from '../store/migrations.ts'
import { csvFormat } from './csv-format.ts'
import { jsonFormat } from './json-format.ts'
import { isConnectionString } from './postgres-place.ts'
import { postgresTarget } from './postgres-target.ts'
import { sheetTarget } from './sheet-target.ts'
import { sqliteTarget } from './sqlite-target.ts'
import type { Target } from './target.ts'
import { xlsxFormat } from './xlsx-format.ts'

const kinds: Record<string, (path: string) => Target> = {
  '.csv': path => sheetTarget(path, csvFormat),
  '.xlsx': path => sheetTarget(path, xlsxFormat),
  '.json': path => sheetTarget(path, jsonFormat),
  '.sqlite': sqliteTarget,
  '.sqlite3': sqliteTarget,
  '.db': sqliteTarget,
  '.db3': sqliteTarget,
}

/**
 * The target that a connection string or a path means, the latter by its ending and by what lies there.
 * Throws before anything is opened: `server-string`, `target-unknown`, `target-no-folder`,
 * `file-unreadable`, `target-not-database`, and `target-unlike` for a folder or a workspace.
 */
export function openTarget(words: string, workspaceFile: string): Target {
  if (isConnectionString(words)) return postgresTarget(words.trim())
  const path = resolve(words)
  const stat = statSync(path, { throwIfNoEntry: false })
  if (stat && !stat.isFile())
    throw new WhorlError('target-unlike', {
      path,
      what: stat.isDirectory() ? 'it is a folder' : 'it is no file',
    })
  if (!statSync(dirname(path), { throwIfNoEntry: false })?.isDirectory())
    throw new WhorlError('target-no-folder', { path })
  if (stat && isSame(path, workspaceFile))
    throw new WhorlError('target-unlike', { path, what: 'it is the workspace that is open' })
  const target = kinds[extname(path).toLowerCase()]?.(path)
  if (target === undefined) throw new WhorlError('target-unknown', { path })
  if (stat) checkContents(path, target.kind)
  return target
}

const isSame = (path: string, workspaceFile: string) => {
  const workspace = statSync(workspaceFile, { throwIfNoEntry: false })
  return workspace !== undefined && realpathSync(path) === realpathSync(workspaceFile)
}

function checkContents(path: string, kind: Target['kind']): void {
  const header = fileHeader(path)
  if (header.kind === 'unreadable') throw new WhorlError('file-unreadable', { path, what: header.what })
  if (header.kind === 'sqlite' && header.applicationId === applicationId)
    throw new WhorlError('target-unlike', { path, what: 'it is a Whorl workspace, not a ratings database' })
  if (kind !== 'sqlite' && header.kind === 'sqlite')
    throw new WhorlError('target-unlike', { path, what: 'it is a SQLite database, not a sheet' })
  if (kind === 'sqlite' && header.kind === 'other') throw new WhorlError('target-not-database', { path })
}
