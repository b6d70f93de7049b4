import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { Backup } from '../../core/contract/backups.ts'
import type { HostEvent, Service } from '../../core/contract/calls.ts'
import { type Problem, problemOf, WhorlError } from '../../core/contract/problem.ts'
import type { BackupDone, BackupOrder } from '../store/backup.worker.ts'
import { backupsOf, isBackupDue } from '../store/backups.ts'
import { restoreInto } from '../store/restore.ts'
import type { Workspace } from '../store/workspace.ts'
import type { Bus } from './bus.ts'
import type { Parts } from './parts.ts'
import { places } from './places.ts'

const lookEveryMs = 3600 * 1000

/** Dated copies of the open workspace, made while it is used. */
export type Backups = {
  list(): { backups: Backup[]; problem: Problem | null }
  make(): Promise<Backup | null>
  /** Makes one now if the latest is a day old, and looks again every hour. */
  keepUp(): void
  close(): Promise<void>
}

export function createBackups({ workspace, bus }: { workspace: Workspace; bus: Bus }): Backups {
  const file = workspace.file
  let problem: Problem | null = null
  let timer: NodeJS.Timeout | undefined
  let running: { worker: Worker; made: Promise<Backup | null> } | null = null
  let closed = false

  function start(): Promise<Backup | null> {
    if (closed) return Promise.resolve(null)
    const order: BackupOrder = { workspaceFile: file, now: new Date() }
    const worker = new Worker(join(places.program, 'dist', 'host', 'backup.worker.js'), { workerData: order })
    const made = new Promise<Backup | null>((resolve, reject) => {
      worker.once('message', (done: BackupDone) =>
        'made' in done ? resolve(done.made) : reject(new WhorlError(done.code, done.facts)),
      )
      worker.once('error', reject)
      // A worker that was stopped says nothing; after a word this changes nothing.
      worker.once('exit', () => resolve(null))
    }).finally(() => {
      running = null
    })
    running = { worker, made }
    return made
  }

  const make: Backups['make'] = async () => {
    try {
      const backup = await (running?.made ?? start())
      problem = null
      return backup
    } catch (error) {
      problem = problemOf(error)
      throw error
    } finally {
      bus.say({ kind: 'changed', what: 'backups', id: null })
    }
  }
  const makeIfDue = () => {
    if (isBackupDue(file, new Date())) make().catch(() => {})
  }

  return {
    list: () => ({ backups: backupsOf(file), problem }),
    make,
    keepUp: () => {
      makeIfDue()
      timer = setInterval(makeIfDue, lookEveryMs).unref()
    },
    close: async () => {
      closed = true
      clearInterval(timer)
      await running?.worker.terminate()
    },
  }
}

type Calls = 'backups.list' | 'backups.make' | 'backups.restore'
type Changed = Extract<HostEvent, { kind: 'changed' }>['what']

/** After going back everything on every screen is another. */
const everything: Changed[] = [
  'sessions',
  'clips',
  'hits',
  'paddles',
  'studies',
  'transfers',
  'ratings',
  'backups',
]

export const backupCalls = ({ workspace, bus, backups }: Parts): Pick<Service, Calls> => ({
  'backups.list': async () => backups.list(),
  'backups.make': async () => {
    await backups.make()
    return backups.list()
  },
  'backups.restore': async ({ name }) => {
    const backup = backups.list().backups.find(each => each.name === name)
    if (backup === undefined) throw new WhorlError('not-in-workspace', { what: 'backup', id: name })
    restoreInto(workspace, backup.path, new Date())
    for (const what of everything) bus.say({ kind: 'changed', what, id: null })
    bus.say({ kind: 'changed', what: 'backups', id: null })
    return backups.list()
  },
})
