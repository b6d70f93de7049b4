import { parentPort, workerData } from 'node:worker_threads'
import type { Backup } from '../../core/contract/backups.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { makeBackup } from './backups.ts'

export type BackupOrder = { workspaceFile: string; now: Date }
/** A problem travels by its code and facts: an error loses its class on the way between threads. */
export type BackupDone = { made: Backup | null } | Pick<WhorlError, 'code' | 'facts'>

/** Makes one backup and ends: clicks are answered meanwhile. */
function done(): BackupDone {
  const { workspaceFile, now } = workerData as BackupOrder
  try {
    return { made: makeBackup(workspaceFile, now) }
  } catch (error) {
    if (!(error instanceof WhorlError)) return { code: 'internal', facts: { what: String(error) } }
    const { code, facts } = error as WhorlError
    return { code, facts }
  }
}
parentPort?.postMessage(done())
