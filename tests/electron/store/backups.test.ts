import { existsSync, mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { backupsFolderOf, backupsOf, isBackupDue, makeBackup } from '../../../electron/store/backups.ts'
import { applicationId, migrations } from '../../../electron/store/migrations.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { restoreFile, restoreInto } from '../../../electron/store/restore.ts'
import { session } from '../../core/marking/sample-records.ts'
import { rawDatabase } from './raw-database.ts'
import { fillUp, smallDisk } from './small-disk.ts'
import { temporaryFolder, temporaryWorkspace, thrownBy, tickingClock, withOneHit } from './temporary.ts'

const at = (day: number, hour = 9) => new Date(Date.UTC(2026, 4, day, hour))
const outline = (frame: number) => ({
  kind: 'place-outline' as const,
  outline: { frame, xPx: 100, yPx: 50, radiusPx: 20 },
})
const outlinesIn = (file: string): number => {
  const workspace = openWorkspace(file, { now: tickingClock() })
  try {
    return workspace.hit(workspace.hits({})[0]!.hitId).marks.outlines.length
  } finally {
    workspace.close()
  }
}
/** A workspace with one outline, then a backup, then a second outline. */
function backedUp() {
  const { file, workspace } = temporaryWorkspace()
  const { hitId } = withOneHit(workspace)
  workspace.saveEdit(hitId, outline(1))
  const backup = makeBackup(file, at(1))!
  workspace.saveEdit(hitId, outline(2))
  return { file, workspace, hitId, backup }
}

describe('a backup', () => {
  it('is a whole workspace of its own, made while the workspace is open and clicked on', () => {
    const { backup, file } = backedUp()
    expect(backup.madeAt).toBe('2026-05-01T09:00:00.000Z')
    expect(readFileSync(backup.path).readUInt32BE(68)).toBe(applicationId)
    const db = rawDatabase(backup.path)
    expect(db.all('PRAGMA integrity_check')).toEqual([{ integrity_check: 'ok' }])
    expect(db.all('PRAGMA user_version')).toEqual([{ user_version: migrations.length }])
    db.close()
    expect(outlinesIn(backup.path)).toBe(1)
    expect(readdirSync(backupsFolderOf(file)).filter(name => name.endsWith('.part'))).toEqual([])
  })

  it('is not made of a workspace that holds nothing', () => {
    const { file } = temporaryWorkspace()
    expect(makeBackup(file, at(1))).toBeNull()
    expect(backupsOf(file)).toEqual([])
  })

  it('is due once a day, and when the clock was set back by more', () => {
    const { file } = backedUp()
    expect(isBackupDue(file, at(1, 20))).toBe(false)
    expect(isBackupDue(file, at(2, 9))).toBe(true)
    expect(isBackupDue(file, new Date(Date.UTC(2026, 2, 1)))).toBe(true)
  })

  it('lets the oldest go: ten stay, and one of each of the last twelve months', () => {
    const { file } = backedUp()
    for (let month = 0; month < 15; month++) makeBackup(file, new Date(Date.UTC(2026, 5 + month, 3)))
    for (let day = 1; day <= 14; day++) makeBackup(file, new Date(Date.UTC(2027, 8, day)))
    const days = backupsOf(file).map(({ madeAt }) => madeAt.slice(0, 10))
    expect(days.slice(0, 10)).toEqual(
      Array.from({ length: 10 }, (_, i) => `2027-09-${String(14 - i).padStart(2, '0')}`),
    )
    // September is among the ten; the eleven months before have one each, the others are gone.
    expect(days.slice(10)).toEqual(
      Array.from({ length: 11 }, (_, i) => new Date(Date.UTC(2027, 7 - i, 3)).toISOString().slice(0, 10)),
    )
  })

  it('just made stays although the clock was set back to before all others', () => {
    const { file } = backedUp()
    for (let day = 2; day <= 14; day++) makeBackup(file, at(day))
    const early = makeBackup(file, new Date(Date.UTC(2020, 0, 1)))!
    expect(existsSync(early.path)).toBe(true)
  })

  it('of one workspace is not taken for one of another in the same folder', () => {
    const { file } = backedUp()
    const beside = join(dirname(file), 'work.sqlite')
    const other = openWorkspace(beside, { now: tickingClock() })
    onTestFinished(() => other.close())
    other.createSession(session)
    makeBackup(beside, at(3))
    expect(backupsOf(file)).toHaveLength(1)
    expect(backupsOf(beside)).toHaveLength(1)
  })

  it('that a killed program left half made is cleared away after a day', () => {
    const { file } = backedUp()
    const half = join(backupsFolderOf(file), 'workspace 2026-05-01T08-00-00-000Z.sqlite.99.part')
    writeFileSync(half, 'half')
    utimesSync(half, at(1), at(1))
    makeBackup(file, at(1, 12))
    expect(existsSync(half)).toBe(true)
    makeBackup(file, at(3))
    expect(existsSync(half)).toBe(false)
  })

  it('that does not fit on the disk leaves the earlier ones and the workspace alone', ({ skip }) => {
    const disk = smallDisk()
    if (!disk) return skip('only root on Linux can mount a small disk')
    const file = join(disk, 'w.sqlite')
    const workspace = openWorkspace(file, { now: tickingClock() })
    onTestFinished(() => workspace.close())
    withOneHit(workspace)
    fillUp(disk)
    expect(thrownBy(() => makeBackup(file, at(2)))).toMatchObject({ code: 'disk-full' })
    expect(backupsOf(file)).toEqual([])
    expect(workspace.sessions()).toHaveLength(1)
  })

  it('is made before an older file gets the form of today', () => {
    const file = join(temporaryFolder(), 'w.sqlite')
    const old = rawDatabase(file).run(migrations[0]!)
    old.run(`INSERT INTO paddle VALUES ('p', 'Heron 14', '', ''); PRAGMA user_version = 1`).close()
    openWorkspace(file, { now: () => at(4) }).close()
    const [backup] = backupsOf(file)
    expect(rawDatabase(backup!.path).all('PRAGMA user_version')).toEqual([{ user_version: 1 }])
  })
})

describe('going back to a backup', () => {
  it('brings back what was there then, and keeps what was there now as a backup', () => {
    const { file, workspace, hitId, backup } = backedUp()
    const { before } = restoreInto(workspace, backup.path, at(2))
    expect(workspace.hit(hitId).marks.outlines.map(({ frame }) => frame)).toEqual([1])
    expect(workspace.undo(hitId).marks.outlines).toEqual([])
    restoreInto(workspace, before!.path, at(3))
    expect(workspace.hit(hitId).marks.outlines.map(({ frame }) => frame)).toEqual([1, 2])
    expect(backupsOf(file)).toHaveLength(3)
    const db = rawDatabase(file)
    expect(db.all('PRAGMA integrity_check')).toEqual([{ integrity_check: 'ok' }])
    expect(db.all('PRAGMA foreign_key_check')).toEqual([])
  })

  it('is seen by another window at once, whole, and its clicks go on', () => {
    const { file, hitId, backup, workspace } = backedUp()
    const other = temporaryWorkspace(file)
    restoreFile(file, backup.path, at(2))
    expect(other.workspace.hit(hitId).marks.outlines).toHaveLength(1)
    other.workspace.saveEdit(hitId, outline(7))
    expect(workspace.hit(hitId).marks.outlines.map(({ frame }) => frame)).toEqual([1, 7])
  })

  it('works where the workspace is damaged: the damaged file is set aside, not deleted', () => {
    const { file, workspace, backup } = backedUp()
    workspace.close()
    const bytes = readFileSync(file)
    bytes.fill(0x5a, 100, 4096)
    writeFileSync(file, bytes)
    const { setAside, before } = restoreFile(file, backup.path, at(2))
    expect(before).toBeNull()
    expect(readFileSync(setAside!).equals(bytes)).toBe(true)
    expect(outlinesIn(file)).toBe(1)
  })

  it('works where the workspace is gone', () => {
    const { file, workspace, backup } = backedUp()
    workspace.close()
    const fresh = join(dirname(file), 'new', 'w.sqlite')
    expect(restoreFile(fresh, backup.path, at(2))).toEqual({ before: null, setAside: null })
    expect(outlinesIn(fresh)).toBe(1)
  })

  it('takes a backup of an older form, and leaves that file as it is', () => {
    const { workspace } = backedUp()
    const old = join(temporaryFolder(), 'old.sqlite')
    const db = rawDatabase(old).run(migrations[0]!)
    db.run(`INSERT INTO paddle VALUES ('p', 'Heron 14', '', '');
      INSERT INTO set_up VALUES ('u', 'p', 'stock', '', ''); PRAGMA user_version = 1`).close()
    const bytes = readFileSync(old)
    restoreInto(workspace, old, at(2))
    expect(workspace.paddles().map(({ name }) => name)).toEqual(['Heron 14'])
    expect(workspace.sessions()).toEqual([])
    expect(readFileSync(old).equals(bytes)).toBe(true)
  })

  it.each<[string, string, (path: string) => void]>([
    ['nothing', 'file-not-found', () => {}],
    ['a folder', 'workspace-not-ours', path => mkdirSync(path)],
    ['a text', 'workspace-not-ours', path => writeFileSync(path, 'spin notes\n'.repeat(99))],
    [
      'another program’s file',
      'workspace-not-ours',
      path => rawDatabase(path).run('CREATE TABLE t (a)').close(),
    ],
    [
      'a backup of a later Whorl',
      'workspace-newer',
      path => rawDatabase(path).run(`${migrations[0]}; PRAGMA user_version = 9999`).close(),
    ],
    [
      'a damaged backup',
      'workspace-damaged',
      path => {
        rawDatabase(path).run(`${migrations[0]}; PRAGMA user_version = 1`).close()
        const bytes = readFileSync(path)
        writeFileSync(path, bytes.fill(0x5a, 4096, bytes.length))
      },
    ],
  ])('refuses %s and changes nothing', (_, code, make) => {
    const { file, workspace, hitId } = backedUp()
    const backup = join(temporaryFolder(), 'backup')
    make(backup)
    expect(thrownBy(() => restoreInto(workspace, backup, at(2)))).toMatchObject({ code })
    expect(workspace.hit(hitId).marks.outlines).toHaveLength(2)
    expect(backupsOf(file)).toHaveLength(1)
    expect(readdirSync(backupsFolderOf(file)).filter(name => name.includes('.part'))).toEqual([])
  })
})
