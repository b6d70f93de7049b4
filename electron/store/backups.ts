import { closeSync, fsyncSync, mkdirSync, openSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { basename, dirname, extname, join, resolve } from 'node:path'
import type { Backup } from '../../core/contract/backups.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { Database } from './database.ts'
import { troubleWith } from './workspace-trouble.ts'

/** Of all copies these stay: the latest ones, and the latest of each of the last months. */
const kept = { latest: 10, months: 12 }
const dayMs = 24 * 3600 * 1000
const ending = '.sqlite'
const unfinished = '.part'

export const backupsFolderOf = (workspaceFile: string): string =>
  join(dirname(resolve(workspaceFile)), 'backups')

const stemOf = (workspaceFile: string) => basename(workspaceFile, extname(workspaceFile))
const nameOf = (workspaceFile: string, at: Date) =>
  `${stemOf(workspaceFile)} ${at.toISOString().replace(/[:.]/g, '-')}${ending}`

/** The copies of a workspace, latest first by the time in their names. */
export function backupsOf(workspaceFile: string): Backup[] {
  const folder = backupsFolderOf(workspaceFile)
  const before = `${stemOf(workspaceFile)} `
  return namesIn(folder)
    .flatMap(name => {
      const [, day, hour, minute, second, ms] =
        /^(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z\.sqlite$/.exec(name.slice(before.length)) ?? []
      const path = join(folder, name)
      const stat = statSync(path, { throwIfNoEntry: false })
      if (!name.startsWith(before) || day === undefined || !stat?.isFile()) return []
      return [{ name, path, madeAt: `${day}T${hour}:${minute}:${second}.${ms}Z`, bytes: stat.size }]
    })
    .sort((a, b) => (a.madeAt < b.madeAt ? 1 : -1))
}

/** True when the latest copy is a day from now, either way: a clock may have been set back. */
export function isBackupDue(workspaceFile: string, now: Date): boolean {
  const [latest] = backupsOf(workspaceFile)
  return latest === undefined || Math.abs(now.getTime() - Date.parse(latest.madeAt)) >= dayMs
}

/**
 * Makes a whole copy of the workspace as it is now, whoever has it open and clicks on it meanwhile (SQLite's
 * VACUUM INTO reads one moment), looks whether the copy is whole, and lets the oldest copies go. Null when
 * there is nothing in the workspace. Takes seconds on a large one.
 *
 * @throws `disk-full`, `workspace-damaged`, `workspace-locked`, `workspace-read-only`
 */
export function makeBackup(workspaceFile: string, now: Date): Backup | null {
  const folder = backupsFolderOf(workspaceFile)
  const path = join(folder, nameOf(workspaceFile, now))
  const beside = `${path}.${process.pid}${unfinished}`
  makeFolder(folder)
  clearUnfinished(folder, now)
  try {
    const workspace = new Database(workspaceFile, { readOnly: false, onTrouble: troubleWith(workspaceFile) })
    try {
      // Not as a prepared statement: one of the drivers keeps a file open until those are collected.
      workspace.exec(`VACUUM INTO '${beside.replaceAll("'", "''")}'`)
    } finally {
      workspace.close()
    }
    if (checkWhole(beside, workspaceFile).isEmpty) return null
    putInPlace(beside, path)
  } finally {
    rmSync(beside, { force: true })
  }
  letGo(workspaceFile, path)
  return backupsOf(workspaceFile).find(backup => backup.path === path) ?? null
}

/** Looks through every page of a copy. Throws `workspace-damaged`, naming the file that it was made from. */
export function checkWhole(copy: string, of: string): { isEmpty: boolean } {
  const db = new Database(copy, { readOnly: true, onTrouble: troubleWith(of) })
  try {
    const said = db.all<{ quick_check: string }>('PRAGMA quick_check')
    if (said[0]?.quick_check !== 'ok') throw new WhorlError('workspace-damaged', { path: of })
    const nothing = 'SELECT NOT EXISTS (SELECT 1 FROM session) AND NOT EXISTS (SELECT 1 FROM paddle) AS holds'
    return { isEmpty: db.get<{ holds: number }>(nothing)!.holds === 1 }
  } finally {
    db.close()
  }
}

/** A file under its final name is whole and on the disk, whatever happens now. */
export function putInPlace(beside: string, path: string): void {
  const file = openSync(beside, 'r+')
  try {
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
  renameSync(beside, path)
}

function letGo(workspaceFile: string, justMade: string): void {
  const backups = backupsOf(workspaceFile)
  const latest = backups.slice(0, kept.latest)
  const monthOf = ({ madeAt }: Backup) => madeAt.slice(0, 7)
  const months = [...new Set(backups.map(monthOf))].slice(0, kept.months)
  const ofMonths = months.map(month => backups.find(backup => monthOf(backup) === month))
  for (const backup of backups)
    if (!latest.includes(backup) && !ofMonths.includes(backup) && backup.path !== justMade)
      rmSync(backup.path, { force: true })
}

/** What a killed program left half made; each name ends with the number of the process. */
function clearUnfinished(folder: string, now: Date): void {
  const own = `${process.pid}${unfinished}`
  for (const name of namesIn(folder).filter(each => each.endsWith(unfinished) && !each.endsWith(own))) {
    const stat = statSync(join(folder, name), { throwIfNoEntry: false })
    if (stat && Math.abs(now.getTime() - stat.mtimeMs) > dayMs) rmSync(join(folder, name), { force: true })
  }
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true })
  } catch (cause) {
    const full = (cause as NodeJS.ErrnoException).code === 'ENOSPC'
    throw new WhorlError(full ? 'disk-full' : 'workspace-read-only', { path: folder }, { cause })
  }
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder)
  } catch {
    return []
  }
}
