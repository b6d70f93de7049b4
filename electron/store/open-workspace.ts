import { mkdirSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { WhorlError } from '../../core/contract/problem.ts'
import { makeBackup } from './backups.ts'
import { cameraStore } from './cameras.ts'
import { clipStore } from './clips.ts'
import { Database } from './database.ts'
import { editStore } from './edits.ts'
import { enteringStore } from './enter-hits.ts'
import { figureStore } from './figures.ts'
import { fileHeader } from './file-header.ts'
import { hitStore } from './hits.ts'
import { metricStore } from './metrics.ts'
import { formOf, migrate } from './migrate.ts'
import { applicationId, migrations } from './migrations.ts'
import { paddleStore } from './paddles.ts'
import { readQueueStore } from './read-queue.ts'
import { readingStore } from './readings.ts'
import { sessionStore } from './sessions.ts'
import { settingStore } from './settings.ts'
import { studyStore } from './studies.ts'
import { surfaceStore } from './surfaces.ts'
import { takeOver } from './take-over.ts'
import { targetStore } from './targets.ts'
import { testDayStore } from './test-days.ts'
import { transferStore } from './transfers.ts'
import type { Workspace } from './workspace.ts'
import { troubleWith } from './workspace-trouble.ts'

/**
 * Opens the workspace file, makes it where there is none, and brings an older one up to date.
 *
 * @throws `workspace-not-ours` for any other file, which stays untouched, `workspace-newer` for one of a
 * later Whorl, `workspace-locked`, `workspace-read-only`, `workspace-damaged`, `disk-full`, `file-unreadable`.
 */
export function openWorkspace(file: string, { now }: { now: () => Date }): Workspace {
  makeFolder(file)
  if (!openHere.has(resolve(file))) checkOurs(file)
  const db = new Database(file, { readOnly: false, onTrouble: troubleWith(file) })
  try {
    // The first form is written in the plain journal mode: a kill then leaves either nothing or our mark.
    if (formOf(db) > migrations.length)
      throw new WhorlError('workspace-newer', { path: file, found: formOf(db), known: migrations.length })
    // An older Whorl can still open what is put by before its file gets the new form.
    if (formOf(db) > 0 && formOf(db) < migrations.length) makeBackup(file, now())
    db.exec('PRAGMA foreign_keys = OFF') // a migration may have to rebuild a table that others point to
    migrate(db, migrations)
    db.exec('PRAGMA journal_mode = WAL')
    // Every click is synced: a power cut costs the click in flight, not the last second's.
    db.exec('PRAGMA synchronous = FULL')
    db.exec('PRAGMA foreign_keys = ON')
    // A file that is broken or cannot be written shows itself now, not at the first click.
    db.get('SELECT 1 FROM hit')
    db.transaction(() => db.exec(`PRAGMA user_version = ${migrations.length}`))
  } catch (thrown) {
    db.close()
    throw thrown
  }
  openHere.add(resolve(file))
  const stamp = () => now().toISOString()
  return toldAsDamage(file, {
    file,
    close: () => {
      db.leaveLog()
      db.close()
      openHere.delete(resolve(file))
    },
    takeOver: copy => takeOver(db, copy),
    isEmpty: () =>
      db.get<{ empty: number }>(
        'SELECT NOT EXISTS (SELECT 1 FROM session) AND NOT EXISTS (SELECT 1 FROM paddle) AS empty',
      )!.empty === 1,
    ...sessionStore(db, stamp),
    ...cameraStore(db, stamp),
    ...testDayStore(db, stamp),
    ...paddleStore(db, stamp),
    ...clipStore(db, stamp),
    ...hitStore(db, stamp),
    ...editStore(db, stamp),
    ...readingStore(db, stamp),
    ...surfaceStore(db, stamp),
    ...readQueueStore(db),
    ...studyStore(db, stamp),
    ...enteringStore(db, stamp),
    ...figureStore(db),
    ...settingStore(db),
    ...metricStore(db, stamp),
    ...targetStore(db, stamp),
    ...transferStore(db, stamp),
  })
}

/** Stored JSON that is none is damage to the file, which SQLite itself does not see. */
function toldAsDamage(file: string, workspace: Workspace): Workspace {
  const told =
    (call: (...given: unknown[]) => unknown) =>
    (...given: unknown[]): unknown => {
      try {
        return call(...given)
      } catch (thrown) {
        throw thrown instanceof SyntaxError ? troubleWith(file)('damaged', thrown) : thrown
      }
    }
  const calls = Object.entries(workspace).map(([name, call]) => [
    name,
    typeof call === 'function' ? told(call) : call,
  ])
  return Object.fromEntries(calls) as Workspace
}

/** A look at the header of a file that this process has open would drop SQLite's locks on it. */
const openHere = new Set<string>()

function makeFolder(file: string): void {
  try {
    mkdirSync(dirname(file), { recursive: true })
  } catch (cause) {
    throw new WhorlError('workspace-read-only', { path: file }, { cause })
  }
}

function checkOurs(file: string): void {
  const header = fileHeader(file)
  if (header.kind === 'unreadable') throw new WhorlError('file-unreadable', { path: file, what: header.what })
  if (header.kind === 'other' || (header.kind === 'sqlite' && header.applicationId !== applicationId))
    throw new WhorlError('workspace-not-ours', { path: file })
}
