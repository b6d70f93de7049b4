import type { Problem } from './problem.ts'

/** A whole copy of the workspace as it was; `madeAt` is ISO 8601 in UTC. */
export type Backup = { name: string; path: string; madeAt: string; bytes: number }
/** The copies there are, latest first; `problem` says why the last one could not be made by itself. */
export type BackupList = { backups: Backup[]; problem: Problem | null }
