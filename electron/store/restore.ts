import { copyFileSync, existsSync, mkdirSync, renameSync, rmSync } from 'node:fs'
import { basename, dirname, extname, join, resolve } from 'node:path'
import type { Backup } from '../../core/contract/backups.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { backupsFolderOf, checkWhole, makeBackup, putInPlace } from './backups.ts'
import { Database } from './database.ts'
import { fileHeader } from './file-header.ts'
import { formOf, migrate } from './migrate.ts'
import { applicationId, migrations } from './migrations.ts'
import { openWorkspace } from './open-workspace.ts'
import type { Workspace } from './workspace.ts'
import { troubleWith } from './workspace-trouble.ts'

export type Restored = {
  /** The workspace as it was before, so that the step can be taken back; null when it held nothing. */
  before: Backup | null
  /** Where a damaged workspace file lies now. */
  setAside: string | null
}

/** Goes back to a backup in a workspace that is open here. What was there becomes a backup itself first. */
export function restoreInto(workspace: Workspace, backup: string, now: Date): Restored {
  return withReadyCopy(workspace.file, backup, copy => {
    const before = makeBackup(workspace.file, now)
    workspace.takeOver(copy)
    return { before, setAside: null }
  })
}

/**
 * Goes back to a backup in a workspace file that is not open here. Another window may have it open. A file
 * that is damaged is set aside under another name, never deleted; one that is not there is made.
 *
 * @throws what `openWorkspace` throws of the backup, and of the workspace except `workspace-damaged`
 */
export function restoreFile(file: string, backup: string, now: Date): Restored {
  const workspace = existsSync(file) ? openUnlessDamaged(file, now) : null
  if (workspace) {
    try {
      return restoreInto(workspace, backup, now)
    } finally {
      workspace.close()
    }
  }
  return withReadyCopy(file, backup, copy => {
    const setAside = setAsideOf(file, now)
    putInPlace(copy, resolve(file))
    return { before: null, setAside }
  })
}

function openUnlessDamaged(file: string, now: Date): Workspace | null {
  try {
    return openWorkspace(file, { now: () => now })
  } catch (thrown) {
    if (thrown instanceof WhorlError && thrown.code === 'workspace-damaged') return null
    throw thrown
  }
}

/** A copy of the backup, looked through and brought to the form of today. The backup stays as it is. */
function withReadyCopy<T>(file: string, backup: string, use: (copy: string) => T): T {
  const header = fileHeader(backup)
  if (header.kind === 'nothing') throw new WhorlError('file-not-found', { path: backup })
  if (header.kind !== 'sqlite' || header.applicationId !== applicationId)
    throw new WhorlError('workspace-not-ours', { path: backup })
  const copy = join(backupsFolderOf(file), `restoring ${process.pid}.part`)
  mkdirSync(dirname(copy), { recursive: true })
  try {
    copyFileSync(backup, copy)
    checkWhole(copy, backup)
    const db = new Database(copy, { readOnly: false, onTrouble: troubleWith(backup) })
    try {
      const found = formOf(db)
      if (found > migrations.length)
        throw new WhorlError('workspace-newer', { path: backup, found, known: migrations.length })
      migrate(db, migrations)
      db.leaveLog()
    } finally {
      db.close()
    }
    return use(copy)
  } finally {
    for (const rest of ['', '-journal', '-wal', '-shm']) rmSync(copy + rest, { force: true })
  }
}

/** The damaged file and what SQLite keeps beside it get another name. Null when there is none. */
function setAsideOf(file: string, now: Date): string | null {
  if (!existsSync(file)) return null
  const ending = extname(file)
  const stamp = now.toISOString().replace(/[:.]/g, '-')
  const to = join(dirname(file), `${basename(file, ending)} damaged ${stamp}${ending}`)
  for (const rest of ['-journal', '-wal', '-shm', ''])
    if (existsSync(file + rest)) renameSync(file + rest, to + rest)
  return to
}
